using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Records.Checks;

/// <summary>A key under which one record names another.</summary>
/// <param name="Key">The key as it is written.</param>
/// <param name="Kinds">The kinds of record it takes.</param>
/// <param name="Binds">Whether a plan rests on it (a cable lies in a tray), or it only speaks of a record (a photo shows one).</param>
internal sealed record ReferenceRole(string Key, ImmutableArray<RecordKind> Kinds, bool Binds)
{
    public static ImmutableArray<RecordKind> AnyKind { get; } = [.. Enum.GetValues<RecordKind>()];

    public static ReferenceRole CableKind { get; } = new("kind", [RecordKind.CableKind], Binds: true);

    public static ReferenceRole End { get; } = new("at", [RecordKind.Frame], Binds: true);

    public static ReferenceRole LiesIn { get; } = new("lies_in", [RecordKind.Tray], Binds: true);

    public static ReferenceRole LiesOver { get; } = new("lies_over", [RecordKind.Cable], Binds: true);

    public static ReferenceRole CoilTo { get; } = new("coil_to", [RecordKind.Frame], Binds: true);

    public static ReferenceRole Needs { get; } = new("needs", [RecordKind.Frame], Binds: true);

    public static ReferenceRole TrayHall { get; } = new("hall", [RecordKind.Hall], Binds: true);

    public static ReferenceRole Row { get; } = new("frames", [RecordKind.Frame], Binds: true);

    public static ReferenceRole Shows { get; } = new("shows", AnyKind, Binds: false);

    public static ReferenceRole ShowsPlace { get; } = new("shows", [RecordKind.Frame], Binds: false);

    public static ReferenceRole EventOf { get; } = new("of", [RecordKind.Frame, RecordKind.Cable, RecordKind.Tray], Binds: false);

    public static ReferenceRole EventEnd { get; } = new("of", [RecordKind.Cable], Binds: false);

    public static ReferenceRole EventEndFrame { get; } = new("of", [RecordKind.Frame], Binds: false);

    public static ReferenceRole EventHall { get; } = new("hall", [RecordKind.Hall], Binds: false);

    public static ReferenceRole Mention { get; } = new("[[…]]", AnyKind, Binds: false);

    /// <summary>What it takes, in a sentence: <c>frame</c>, <c>frame, cable or tray</c>, or <c>record</c> for any kind.</summary>
    public string Noun { get; } = Kinds.Length == Enum.GetValues<RecordKind>().Length ? "record"
        : Kinds.Length == 1 ? Kinds[0].Noun()
        : string.Join(", ", Kinds[..^1].Select(kind => kind.Noun())) + " or " + Kinds[^1].Noun();
}

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
        Hall hall => hall.Rows.SelectMany(row => row.Places).Where(place => place.Frame is not null)
            .Select(place => new Reference(ReferenceRole.Row, place.Frame!.Value)),
        Photo photo => photo.Shows.Concat(photo.Regions.SelectMany(region => region.Shows))
            .Where(name => !name.Value.Contains('/', StringComparison.Ordinal))
            .Select(name => new Reference(ReferenceRole.Shows, name)),
        ArchiveEvent happened => happened.Of.Select(name => new Reference(ReferenceRole.EventOf, name))
            .Concat(happened.Ends.Select(end => new Reference(ReferenceRole.EventEnd, end.Cable)))
            .Concat(happened.ToHall is { } hall ? [new Reference(ReferenceRole.EventHall, hall)] : []),
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
