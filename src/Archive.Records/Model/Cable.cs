using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Records.Terms;
using UnitsNet;

namespace Archive.Records.Model;

/// <summary>A cable, as observed.</summary>
public sealed record Cable : ArchiveRecord
{
    public override RecordKind RecordKind => RecordKind.Cable;

    /// <summary>Id of its kind; null only on a withdrawn record.</summary>
    public Stated<string>? Kind { get; init; }

    /// <summary>What is printed or tagged on it, exactly as written.</summary>
    public Stated<string>? Label { get; init; }

    /// <summary>The ends that were observed: two usually, fewer where one was not seen, more for a harness.</summary>
    public ImmutableArray<CableEnd> Ends { get; init; } = [];

    public Stated<Length>? Length { get; init; }

    /// <summary>Ids of the trays it lies in, in order from the first end.</summary>
    public ImmutableArray<Stated<string>> LiesIn { get; init; } = [];

    /// <summary>Ids of the cables it lies upon: they can't come out before it does.</summary>
    public ImmutableArray<Stated<string>> LiesOver { get; init; } = [];

    /// <summary>What becomes of it.</summary>
    public Stated<Fate>? Fate { get; init; }

    /// <summary>With <see cref="Archive.Records.Model.Fate.Coil"/>: id of the frame that it stays connected to.</summary>
    public Stated<string>? CoilTo { get; init; }

    /// <summary>Why it is severed or left.</summary>
    public Stated<string>? Reason { get; init; }

    /// <summary>Who it belongs to where it is not part of the machine: it stays, may be live, and is not touched.</summary>
    public Stated<string>? Owner { get; init; }

    /// <summary>Who allowed it to be cut, when and in which document.</summary>
    public Consent? Permission { get; init; }

    /// <summary>The name, else the label in quotes' stead, else the id.</summary>
    public override string Title => Name?.Value ?? Id;
}

public sealed record CableEnd
{
    /// <summary>Where the end is in the record.</summary>
    public required SourceSpan Span { get; init; }

    /// <summary>Where it is connected; null where only a tag was seen.</summary>
    public Stated<Address>? At { get; init; }

    public Stated<string>? Connector { get; init; }

    /// <summary>This end's own tag, exactly as written.</summary>
    public Stated<string>? Label { get; init; }

    /// <summary>Remark, in Markdown.</summary>
    public Stated<string>? Note { get; init; }
}

/// <summary>Leave to cut a cable.</summary>
/// <param name="By">Who gave it, in words.</param>
public sealed record Consent(Stated<string>? By, Stated<EdtfDate>? On, Stated<string>? Document);
