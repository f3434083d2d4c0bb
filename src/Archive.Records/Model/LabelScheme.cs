using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Records.Terms;

namespace Archive.Records.Model;

/// <summary>How printed labels are read.</summary>
public sealed record LabelScheme : ArchiveRecord
{
    public override RecordKind RecordKind => RecordKind.Scheme;

    /// <summary>Regular expression, matched in linear time; null only on a withdrawn record.</summary>
    public Stated<string>? Reads { get; init; }

    /// <summary>One address an end, with <c>{group}</c> for what was captured.</summary>
    public ImmutableArray<Stated<string>> Means { get; init; } = [];

    /// <summary>Tables by name; a table serves every group of its name, digits aside.</summary>
    public FrozenDictionary<string, FrozenDictionary<string, Stated<string>>> Tables { get; init; } =
        FrozenDictionary<string, FrozenDictionary<string, Stated<string>>>.Empty;

    /// <summary>Sets of characters that the print is misread between.</summary>
    public ImmutableArray<Stated<string>> Confusions { get; init; } = [];

    /// <summary>Labels and what they mean, checked at every build.</summary>
    public ImmutableArray<SchemeExample> Examples { get; init; } = [];

    /// <summary>Whether it reads labels of cables or tags at their ends.</summary>
    public Stated<SchemeSubject>? On { get; init; }
}

/// <summary>A label and the addresses it means.</summary>
/// <param name="Label">The label, exactly as written.</param>
/// <param name="Means">Addresses in order.</param>
public sealed record SchemeExample(Stated<string> Label, ImmutableArray<Stated<Address>> Means)
{
    /// <summary>Label and meaning together.</summary>
    public SourceSpan Span => Label.Span;
}

/// <summary>What a scheme reads.</summary>
public enum SchemeSubject
{
    /// <summary>The label of a whole cable.</summary>
    Cable,

    /// <summary>The tag at one end: <c>means</c> gives this end and, where the tag says it, the far one.</summary>
    End,
}
