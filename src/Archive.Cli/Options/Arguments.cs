namespace Archive.Cli.Options;

/// <summary>What was typed, nothing of it judged.</summary>
internal sealed record Arguments
{
    public string? Content { get; init; }

    public string? Site { get; init; }

    public string? Cache { get; init; }

    public string? Themes { get; init; }

    public string? Format { get; init; }

    public bool Survey { get; init; }

    public string? What { get; init; }

    public string? Folder { get; init; }

    public int? Gap { get; init; }

    public bool WithErrors { get; init; }

    public bool Replace { get; init; }

    public int? Port { get; init; }

    public string? Code { get; init; }

    public string? Plan { get; init; }

    public string? Described { get; init; }

    public string? DescriptionFormat { get; init; }

    public string? Schema { get; init; }

    public string? PlanFormat { get; init; }

    public string? Hall { get; init; }

    public string? Display { get; init; }

    public string? Frame { get; init; }

    public string? Path { get; init; }

    public string? Against { get; init; }

    public string? From { get; init; }

    public string? Until { get; init; }

    public string? ChangeFormat { get; init; }

    public string? Paper { get; init; }

    public string? Size { get; init; }

    public double? Distance { get; init; }

    public string? By { get; init; }

    public string? For { get; init; }

    public string? Ids { get; init; }

    public string? Form { get; init; }

    public double? Around { get; init; }

    public string? Of { get; init; }

    public int? Skip { get; init; }

    public string? Svg { get; init; }

    public string? To { get; init; }

    public bool Zip { get; init; }

    public bool Write { get; init; }

    public string? Withheld { get; init; }

    public string[] Sought { get; init; } = [];

    public string? Kind { get; init; }

    public string? Module { get; init; }

    public string? Row { get; init; }

    public string? CableKind { get; init; }

    public string? Date { get; init; }

    public string? Person { get; init; }

    public int? Most { get; init; }

    public string? FindFormat { get; init; }
}
