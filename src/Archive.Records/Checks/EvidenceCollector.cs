using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Records.Checks;

/// <summary>Every evidence that a record gives for what it states. A test holds that no stated fact is left out.</summary>
internal static class EvidenceCollector
{
    /// <summary>All evidence of a record.</summary>
    public static IReadOnlyList<Evidence> Collect(ArchiveRecord record)
    {
        var found = default(Gathering);
        found.Add(record.Withdrawn);
        found.Add(record.Name);
        found.Add(record.About);
        found.Add(record.Note);
        found.Add(record.Condition);
        found.Add(record.Was);
        OfKind(record, ref found);
        return found.All;
    }

    /// <summary>All evidence of archive.yaml.</summary>
    public static IReadOnlyList<Evidence> Collect(ArchiveStatement statement)
    {
        var found = default(Gathering);
        foreach (var text in new[]
        {
            statement.Title, statement.Custodian, statement.Language, statement.Licence, statement.Credit, statement.Watermark,
            statement.Theme, statement.About
        }) found.Add(text);
        found.Add(statement.AsFound);
        found.Add(statement.Base);
        found.Add(statement.Units);
        found.Add(statement.Allowance);
        found.Add(statement.FillLimit);
        found.Add(statement.PaceEach);
        found.Add(statement.PacePerMetre);
        foreach (var views in statement.WantedViews.Values) found.Add(views);
        foreach (var person in statement.People.Values)
        {
            found.Add(person.Name);
            found.Add(person.Role);
        }

        return found.All;
    }

    private static void OfKind(ArchiveRecord record, ref Gathering found)
    {
        switch (record)
        {
            case Cable cable: OfCable(cable, ref found); break;
            case Frame frame: OfFrame(frame, ref found); break;
            case CableKind kind: OfCableKind(kind, ref found); break;
            case Tray tray: OfTray(tray, ref found); break;
            case Unit unit: OfUnit(unit, ref found); break;
            case Piece piece: OfPiece(piece, ref found); break;
            case Box box: OfBox(box, ref found); break;
            case Document document: OfDocument(document, ref found); break;
            case Hall hall: OfHall(hall, ref found); break;
            case LabelScheme scheme: OfScheme(scheme, ref found); break;
            case Display display: OfNeeds(display.Needs, ref found); break;
            case Photo photo: OfPhoto(photo, ref found); break;
            case ArchiveEvent archiveEvent: OfEvent(archiveEvent, ref found); break;
            case Story story: OfStory(story, ref found); break;
        }
    }

    private static void OfCable(Cable cable, ref Gathering found)
    {
        found.Add(cable.Kind);
        found.Add(cable.Label);
        found.Add(cable.Length);
        found.Add(cable.Fate);
        found.Add(cable.CoilTo);
        found.Add(cable.Reason);
        found.Add(cable.Owner);
        found.Add(cable.Permission?.By);
        found.Add(cable.Permission?.On);
        found.Add(cable.Permission?.Document);
        found.Add(cable.LiesIn);
        found.Add(cable.LiesOver);
        foreach (var end in cable.Ends)
        {
            found.Add(end.At);
            found.Add(end.Connector);
            found.Add(end.Label);
            found.Add(end.Note);
        }
    }

    private static void OfCableKind(CableKind kind, ref Gathering found)
    {
        found.Add(kind.Family);
        found.Add(kind.Diameter);
        found.Add(kind.Mass);
        found.Add(kind.Bend);
        found.Add(kind.Pairs);
        found.Add(kind.Gauge);
        found.Add(kind.Hazards);
    }

    private static void OfFrame(Frame frame, ref Gathering found)
    {
        found.Add(frame.Module);
        found.Add(frame.Size);
        found.Add(frame.Weight);
        found.Add(frame.Weighed);
        found.Add(frame.Doors);
        found.Add(frame.MayLieDown);
        found.Add(frame.Found?.On);
        found.Add(frame.Found?.By);
        found.Add(frame.Hazards);
        found.Add(frame.Owner);
        foreach (var draw in frame.Draws)
        {
            found.Add(draw.Volts);
            found.Add(draw.Amps);
        }

        foreach (var position in frame.Positions)
        {
            found.Add(position.Id);
            found.Add(position.Holds);
            found.Add(position.FromFloor);
            found.Add(position.Height);
            found.Add(position.Note);
        }

        OfNeeds(frame.Needs, ref found);
    }

    private static void OfNeeds(ImmutableArray<Need> needs, ref Gathering found)
    {
        foreach (var need in needs)
        {
            switch (need)
            {
                case FrameNeed frame:
                    found.Add(frame.Frame);
                    break;
                case AnyNeed any:
                    found.Add(any.Any);
                    found.Add(any.Module);
                    OfNeeds(any.Of, ref found);
                    break;
            }
        }
    }

    private static void OfTray(Tray tray, ref Gathering found)
    {
        found.Add(tray.Hall);
        found.Add(tray.Height);
        found.Add(tray.Size);
        found.Add(tray.Hazards);
    }

    private static void OfUnit(Unit unit, ref Gathering found)
    {
        found.Add(unit.Marking);
        found.Add(unit.Serial);
        found.Add(unit.Revision);
        found.Add(unit.At);
        found.Add(unit.Size);
        found.Add(unit.Weight);
        found.Add(unit.Handling);
        found.Add(unit.Hazards);
        found.Add(unit.Firmware);
        found.Add(unit.Spare);
        foreach (var strap in unit.Straps) found.Add(strap.Setting);
    }

    private static void OfPiece(Piece piece, ref Gathering found)
    {
        found.Add(piece.Of);
        found.Add(piece.Place);
        found.Add(piece.Count);
        found.Add(piece.Size);
        found.Add(piece.Weight);
        found.Add(piece.Handling);
        found.Add(piece.Hazards);
    }

    private static void OfBox(Box box, ref Gathering found)
    {
        found.Add(box.Size);
        found.Add(box.Weight);
        found.Add(box.Limit);
    }

    private static void OfHall(Hall hall, ref Gathering found)
    {
        found.Add(hall.AsFound);
        found.Add(hall.Ceiling);
        found.Add(hall.FloorRating);
        found.Add(hall.Hazards);
        foreach (var obstacle in hall.Obstacles) found.Add(obstacle.Name);
        foreach (var opening in hall.Openings)
        {
            found.Add(opening.Name);
            found.Add(opening.Height);
        }

        foreach (var row in hall.Rows)
        {
            found.Add(row.Id);
            found.Add(row.Runs);
            found.Add(row.Faces);
            foreach (var place in row.Places)
            {
                found.Add(place.Frame);
                found.Add(place.Gap);
            }
        }
    }

    private static void OfScheme(LabelScheme scheme, ref Gathering found)
    {
        found.Add(scheme.Reads);
        found.Add(scheme.On);
        found.Add(scheme.Means);
        found.Add(scheme.Confusions);
        foreach (var entry in scheme.Tables.Values.SelectMany(table => table.Values)) found.Add(entry);
        foreach (var example in scheme.Examples)
        {
            found.Add(example.Label);
            found.Add(example.Means);
        }
    }

    private static void OfPhoto(Photo photo, ref Gathering found)
    {
        foreach (var text in new[] { photo.File, photo.Sha256, photo.Raw, photo.RawSha256, photo.By, photo.Caption }) found.Add(text);
        found.Add(photo.View);
        found.Add(photo.Taken);
        found.Add(photo.PublishOriginal);
        found.Add(photo.Shows);
        foreach (var region in photo.Regions)
        {
            found.Add(region.Shows);
            found.Add(region.Box);
            found.Add(region.Note);
            found.Add(region.Reads);
            found.Add(region.Probability);
        }

        foreach (var redaction in photo.Redact)
        {
            found.Add(redaction.Box);
            found.Add(redaction.Why);
        }
    }

    private static void OfDocument(Document document, ref Gathering found)
    {
        foreach (var text in new[]
        {
            document.Number, document.Issue, document.Author, document.Rights, document.Original, document.Medium, document.Format,
            document.Withheld
        }) found.Add(text);
        found.Add(document.Type);
        found.Add(document.Date);
        found.Add(document.Pages);
        found.Add(document.Explains);
        foreach (var page in document.PagesExplain)
        {
            found.Add(page.Page);
            found.Add(page.Explains);
        }

        foreach (var file in document.Files)
        {
            found.Add(file.File);
            found.Add(file.Sha256);
            found.Add(file.What);
            found.Add(file.Transcript);
        }
    }

    private static void OfEvent(ArchiveEvent archiveEvent, ref Gathering found)
    {
        found.Add(archiveEvent.On);
        found.Add(archiveEvent.What);
        found.Add(archiveEvent.Into);
        found.Add(archiveEvent.Took);
        found.Add(archiveEvent.ToHall);
        found.Add(archiveEvent.ToPlace);
        found.Add(archiveEvent.Of);
        foreach (var end in archiveEvent.Ends)
        {
            found.Add(end.Cable);
            found.Add(end.At);
        }

        found.Add(archiveEvent.By);
    }

    private static void OfStory(Story story, ref Gathering found)
    {
        found.Add(story.Heading);
        found.Add(story.Order);
        found.Add(story.Body);
    }

    // Most facts are stated bare: nothing is made until one is not.
    private struct Gathering
    {
        private List<Evidence>? _found;

        public readonly IReadOnlyList<Evidence> All => _found ?? (IReadOnlyList<Evidence>)[];

        public void Add<T>(in Stated<T>? fact)
        {
            if (fact.HasValue) Add(fact.GetValueOrDefault());
        }

        public void Add<T>(in Stated<T> fact)
        {
            if (fact.Evidence is { } evidence) (_found ??= []).Add(evidence);
        }

        public void Add<T>(ImmutableArray<Stated<T>> facts)
        {
            foreach (ref readonly var fact in facts.AsSpan()) Add(fact);
        }
    }
}
