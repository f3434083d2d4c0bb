using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Records.Terms;
using UnitsNet;

namespace Archive.Records.Model;

/// <summary>What <c>archive.yaml</c> says of the archive as a whole.</summary>
public sealed record ArchiveStatement
{
    public required SourceSpan Span { get; init; }

    /// <summary>The archive's title.</summary>
    public Stated<string>? Title { get; init; }

    /// <summary>When the as-found state was recorded.</summary>
    public Stated<EdtfDate>? AsFound { get; init; }

    /// <summary>Whether what a photo of a day shows is the as-found state: the day is not known to be after the survey.</summary>
    public bool IsAsFound(DateOnly? day) => day is not { } known || AsFound?.Value.Latest is not { } surveyed || known <= surveyed;

    /// <summary>Who keeps it.</summary>
    public Stated<string>? Custodian { get; init; }

    /// <summary>Web address where it will be published, ending in <c>/</c>; QR codes carry it.</summary>
    public Stated<Uri>? Base { get; init; }

    /// <summary>BCP 47 language of the prose; <c>en</c> where not said.</summary>
    public Stated<string>? Language { get; init; }

    /// <summary>SPDX licence id, or the URI of a rights statement.</summary>
    public Stated<string>? Licence { get; init; }

    /// <summary>Whom to credit.</summary>
    public Stated<string>? Credit { get; init; }

    /// <summary>The line set on each published picture; null for none.</summary>
    public Stated<string>? Watermark { get; init; }

    /// <summary>Units that pages show.</summary>
    public Stated<DisplayUnits>? Units { get; init; }

    /// <summary>Name of the theme; <c>ledger</c> where not said.</summary>
    public Stated<string>? Theme { get; init; }

    /// <summary>Photos still to take: the views needed of each record of a kind.</summary>
    public FrozenDictionary<RecordKind, ImmutableArray<Stated<PhotoView>>> WantedViews { get; init; } =
        FrozenDictionary<RecordKind, ImmutableArray<Stated<PhotoView>>>.Empty;

    /// <summary>Cable dressing needed at each end when re-erected.</summary>
    public Stated<Length>? Allowance { get; init; }

    /// <summary>Share of a tray's section that may be filled.</summary>
    public Stated<Ratio>? FillLimit { get; init; }

    /// <summary>Minutes a cable when decabling.</summary>
    public Stated<Duration>? PaceEach { get; init; }

    /// <summary>Minutes more for each metre of a cable.</summary>
    public Stated<Duration>? PacePerMetre { get; init; }

    /// <summary>The people of the record by key.</summary>
    public FrozenDictionary<string, Person> People { get; init; } = FrozenDictionary<string, Person>.Empty;

    /// <summary>Warnings that are given about no record: what they doubt is true.</summary>
    public ImmutableArray<AcceptedWarning> Accepts { get; init; } = [];

    /// <summary>Description, in Markdown.</summary>
    public Stated<string>? About { get; init; }
}
