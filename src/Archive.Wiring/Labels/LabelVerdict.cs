namespace Archive.Wiring.Labels;

/// <summary>What the label of a cable is worth, compared with what was seen.</summary>
public enum LabelVerdict
{
    /// <summary>The label means the ends that were seen, either way round.</summary>
    Agrees,

    /// <summary>An end was not seen; the label gives it, the place exists and is free, and nothing contradicts.</summary>
    FromLabel,

    /// <summary>Label and observation name different places.</summary>
    Contradicts,

    /// <summary>No scheme reads it, or it means a place that does not exist or is taken.</summary>
    Misread,

    /// <summary>An end was seen, and no label says where the cable goes.</summary>
    Unlabelled,

    /// <summary>Neither ends nor label.</summary>
    Unknown,
}

/// <summary>The words of verdicts in data files, anchors and plans; they never change.</summary>
public static class LabelVerdictText
{
    /// <summary>The verdict in a word, such as <c>from_label</c>.</summary>
    public static string Word(this LabelVerdict verdict) =>
        verdict == LabelVerdict.FromLabel ? "from_label" : verdict.ToString().ToLowerInvariant();

    /// <summary>What a label is worth.</summary>
    public static string InWords(this LabelVerdict verdict) => verdict switch
    {
        LabelVerdict.Agrees => "label matches what was seen",
        LabelVerdict.FromLabel => "label gives an end that was not seen",
        LabelVerdict.Contradicts => "label and observation disagree",
        LabelVerdict.Misread => "label unreadable",
        LabelVerdict.Unlabelled => "no label says where it goes",
        _ => "neither ends nor label recorded",
    };
}
