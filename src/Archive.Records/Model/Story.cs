namespace Archive.Records.Model;

/// <summary>A page of prose for readers and visitors: a Markdown file with a YAML head.</summary>
public sealed record Story : ArchiveRecord
{
    public override RecordKind RecordKind => RecordKind.Story;

    /// <summary>Its title.</summary>
    public Stated<string>? Heading { get; init; }

    /// <summary>Where it comes among the stories.</summary>
    public Stated<int>? Order { get; init; }

    /// <summary>Its text, in Markdown.</summary>
    public required Stated<string> Body { get; init; }

    public override string Title => Heading?.Value ?? Name?.Value ?? Id;
}
