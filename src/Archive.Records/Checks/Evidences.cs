namespace Archive.Records;

/// <summary>Every evidence that a record gives for what it states. A test holds that no stated fact is left out.</summary>
internal static class Evidences
{
    /// <summary>All evidence of a record.</summary>
    public static IEnumerable<Evidence> Of(ArchiveRecord record) => Given(
    [
        record.Withdrawn?.Evidence, record.Name?.Evidence, record.About?.Evidence, record.Note?.Evidence, record.Condition?.Evidence,
        .. record.Was.Select(was => was.Evidence),
        .. OfKind(record),
    ]);

    /// <summary>All evidence of archive.yaml.</summary>
    public static IEnumerable<Evidence> Of(ArchiveStatement statement) => Given(
    [
        statement.Title?.Evidence, statement.AsFound?.Evidence, statement.Custodian?.Evidence, statement.Base?.Evidence, statement.Language?.Evidence,
        statement.Licence?.Evidence, statement.Credit?.Evidence, statement.Watermark?.Evidence, statement.Units?.Evidence, statement.Theme?.Evidence,
        statement.Allowance?.Evidence, statement.FillLimit?.Evidence, statement.PaceEach?.Evidence, statement.PacePerMetre?.Evidence, statement.About?.Evidence,
        .. statement.WantedViews.Values.SelectMany(views => views).Select(view => view.Evidence),
        .. statement.People.Values.SelectMany(person => new[] { person.Name?.Evidence, person.Role?.Evidence }),
    ]);

    private static IEnumerable<Evidence> Given(IEnumerable<Evidence?> evidence) => evidence.OfType<Evidence>();

    private static IEnumerable<Evidence?> OfKind(ArchiveRecord record) => record switch
    {
        Cable cable => OfCable(cable),
        CableKind kind =>
        [
            kind.Family?.Evidence, kind.Diameter?.Evidence, kind.Mass?.Evidence, kind.Bend?.Evidence, kind.Pairs?.Evidence, kind.Gauge?.Evidence,
        ],
        Frame frame => OfFrame(frame),
        Tray tray => [tray.Hall?.Evidence, tray.Height?.Evidence, tray.Size?.Evidence],
        Hall hall => OfHall(hall),
        LabelScheme scheme => OfScheme(scheme),
        Display display => OfNeeds(display.Needs),
        Photo photo => OfPhoto(photo),
        ArchiveEvent happened =>
        [
            happened.On?.Evidence, happened.What?.Evidence, happened.ToHall?.Evidence, happened.ToPlace?.Evidence,
            .. happened.Of.Concat(happened.By).Select(name => name.Evidence),
        ],
        Story story => [story.Heading?.Evidence, story.Order?.Evidence, story.Body.Evidence],
        _ => [],
    };

    private static IEnumerable<Evidence?> OfCable(Cable cable) =>
    [
        cable.Kind?.Evidence, cable.Label?.Evidence, cable.Length?.Evidence, cable.Fate?.Evidence, cable.CoilTo?.Evidence, cable.Reason?.Evidence,
        .. cable.LiesIn.Concat(cable.LiesOver).Select(name => name.Evidence),
        .. cable.Ends.SelectMany(end => new[] { end.At?.Evidence, end.Connector?.Evidence, end.Label?.Evidence, end.Note?.Evidence }),
    ];

    private static IEnumerable<Evidence?> OfFrame(Frame frame) =>
    [
        frame.Module?.Evidence, frame.Size?.Evidence, frame.Weight?.Evidence, frame.Doors?.Evidence, frame.Found?.On?.Evidence, frame.Found?.By?.Evidence,
        .. frame.Draws.SelectMany(draw => new[] { draw.Volts?.Evidence, draw.Amps?.Evidence }),
        .. frame.Positions.SelectMany(position => new[]
        {
            position.Id.Evidence, position.Holds?.Evidence, position.FromFloor?.Evidence, position.Height?.Evidence, position.Note?.Evidence,
        }),
        .. OfNeeds(frame.Needs),
    ];

    private static IEnumerable<Evidence?> OfNeeds(IEnumerable<Need> needs) => needs.SelectMany(need => need switch
    {
        FrameNeed frame => [frame.Frame.Evidence],
        AnyNeed any => [any.Any.Evidence, any.Module?.Evidence, .. OfNeeds(any.Of)],
        _ => Enumerable.Empty<Evidence?>(),
    });

    private static IEnumerable<Evidence?> OfHall(Hall hall) =>
    [
        hall.AsFound?.Evidence, hall.Ceiling?.Evidence, hall.FloorRating?.Evidence,
        .. hall.Obstacles.Select(obstacle => obstacle.Name?.Evidence),
        .. hall.Openings.SelectMany(opening => new[] { opening.Name?.Evidence, opening.Height?.Evidence }),
        .. hall.Rows.SelectMany(row => new[] { row.Id.Evidence, row.Runs.Evidence, row.Faces.Evidence }),
        .. hall.Rows.SelectMany(row => row.Places).SelectMany(place => new[] { place.Frame?.Evidence, place.Gap?.Evidence }),
    ];

    private static IEnumerable<Evidence?> OfScheme(LabelScheme scheme) =>
    [
        scheme.Reads?.Evidence, scheme.On?.Evidence,
        .. scheme.Means.Concat(scheme.Confusions).Select(text => text.Evidence),
        .. scheme.Tables.Values.SelectMany(table => table.Values).Select(entry => entry.Evidence),
        .. scheme.Examples.SelectMany(example => example.Means.Select(address => address.Evidence).Prepend(example.Label.Evidence)),
    ];

    private static IEnumerable<Evidence?> OfPhoto(Photo photo) =>
    [
        photo.File?.Evidence, photo.Sha256?.Evidence, photo.Taken?.Evidence, photo.By?.Evidence, photo.View?.Evidence, photo.Caption?.Evidence, photo.PublishOriginal?.Evidence,
        .. photo.Shows.Select(name => name.Evidence),
        .. photo.Regions.SelectMany(region => region.Shows.Select(name => name.Evidence).Append(region.Box.Evidence).Append(region.Note?.Evidence)),
        .. photo.Redact.SelectMany(redaction => new[] { redaction.Box.Evidence, redaction.Why?.Evidence }),
    ];
}
