using Archive.Records.Terms;

namespace Archive.Records.Model;

/// <summary>How a fact is known: <c>{is: …, from: …, by: …, on: …, note: …}</c>.</summary>
public sealed record Evidence
{
    /// <summary>What it rests on.</summary>
    public Stated<EvidenceSource>? From { get; init; }

    /// <summary>Who says so: a key of <c>people</c> in archive.yaml.</summary>
    public Stated<string>? By { get; init; }

    /// <summary>When it was established.</summary>
    public Stated<EdtfDate>? On { get; init; }

    /// <summary>A remark, in Markdown.</summary>
    public Stated<string>? Note { get; init; }
}
