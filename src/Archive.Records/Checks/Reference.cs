using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Records.Checks;

/// <summary>A place where a record names another.</summary>
/// <param name="Role">Under which key.</param>
/// <param name="Name">The id as written, and where.</param>
internal readonly record struct Reference(ReferenceRole Role, Stated<string> Name)
{
    /// <summary>Every reference of a record, but for the addresses of ends, those in prose, and people.</summary>
    public static IEnumerable<Reference> From(ArchiveRecord record) => record switch
    {
        Cable cable => OfCable(cable),
        Frame frame => Frames(frame.Needs).Select(name => new Reference(ReferenceRole.Needs, name)),
        Display display => Frames(display.Needs).Select(name => new Reference(ReferenceRole.Needs, name)),
        Tray { Hall: { } hall } => [new(ReferenceRole.TrayHall, hall)],
        Piece { Of: { } of } => [new(ReferenceRole.PieceOf, of)],
        Hall hall => hall.Rows.SelectMany(row => row.Places).Where(place => place.Frame is not null)
            .Select(place => new Reference(ReferenceRole.Row, place.Frame!.Value)),
        Photo photo => photo.Shows.Concat(photo.Regions.SelectMany(region => region.Shows))
            .Where(name => !name.Value.Contains('/', StringComparison.Ordinal))
            .Select(name => new Reference(ReferenceRole.Shows, name)),
        Document document => document.Explains.Select(name => new Reference(ReferenceRole.Explains, name))
            .Concat(document.PagesExplain
                .SelectMany(page => page.Explains)
                .Select(name => new Reference(ReferenceRole.PageExplains, name))),
        ArchiveEvent archiveEvent => archiveEvent.Of.Select(name => new Reference(ReferenceRole.EventOf, name))
            .Concat(archiveEvent.Ends.Select(end => new Reference(ReferenceRole.EventEnd, end.Cable)))
            .Concat(archiveEvent.ToHall is { } hall ? [new Reference(ReferenceRole.EventHall, hall)] : [])
            .Concat(archiveEvent.Into is { } box ? [new Reference(ReferenceRole.EventBox, box)] : []),
        _ => [],
    };

    /// <summary>The frames that needs name, nested ones included.</summary>
    public static IEnumerable<Stated<string>> Frames(ImmutableArray<Need> needs) => needs.SelectMany(need => need switch
    {
        FrameNeed frame => [frame.Frame],
        AnyNeed any => Frames(any.Of),
        _ => Enumerable.Empty<Stated<string>>(),
    });

    private static IEnumerable<Reference> OfCable(Cable cable)
    {
        if (cable.Kind is { } kind) yield return new(ReferenceRole.CableKind, kind);
        foreach (var tray in cable.LiesIn) yield return new(ReferenceRole.LiesIn, tray);
        foreach (var under in cable.LiesOver) yield return new(ReferenceRole.LiesOver, under);
        if (cable.CoilTo is { } frame) yield return new(ReferenceRole.CoilTo, frame);
    }
}
