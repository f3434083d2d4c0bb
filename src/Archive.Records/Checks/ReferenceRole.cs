using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Reading.Values;

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

    public static ReferenceRole UnitAt { get; } = new("at", [RecordKind.Frame], Binds: true);

    public static ReferenceRole PieceOf { get; } =
        new("of", [RecordKind.Frame, RecordKind.Cable, RecordKind.Tray, RecordKind.Unit], Binds: true);

    public static ReferenceRole Shows { get; } = new("shows", AnyKind, Binds: false);

    public static ReferenceRole ShowsPlace { get; } = new("shows", [RecordKind.Frame], Binds: false);

    public static ReferenceRole Explains { get; } = new("about", AnyKind, Binds: false);

    public static ReferenceRole PageExplains { get; } = new("pages_about", AnyKind, Binds: false);

    public static ReferenceRole EventOf { get; } =
        new("of", ValueFormats.Subject.RecordKinds, Binds: false);

    public static ReferenceRole EventBox { get; } = new("into", [RecordKind.Box], Binds: false);

    public static ReferenceRole EventEnd { get; } = new("of", [RecordKind.Cable], Binds: false);

    public static ReferenceRole EventEndFrame { get; } = new("of", [RecordKind.Frame], Binds: false);

    public static ReferenceRole EventHall { get; } = new("hall", [RecordKind.Hall], Binds: false);

    public static ReferenceRole Mention { get; } = new("[[…]]", AnyKind, Binds: false);

    /// <summary>What it takes, in a sentence: <c>frame</c>, <c>frame, cable or tray</c>, or <c>record</c> for any kind.</summary>
    public string Noun { get; } = Kinds.Length == Enum.GetValues<RecordKind>().Length ? "record"
        : Kinds.Length == 1 ? Kinds[0].Noun()
        : string.Join(", ", Kinds[..^1].Select(kind => kind.Noun())) + " or " + Kinds[^1].Noun();
}
