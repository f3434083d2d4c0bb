using System.Collections.Immutable;
using Archive.Markup.Links;
using Archive.Markup.Text;

namespace Archive.Site.Parts;

/// <summary>What the label of a cable says, compared with what was seen.</summary>
/// <param name="Verdict">What it is worth, in a few words.</param>
/// <param name="Why">What the verdict rests on.</param>
/// <param name="Sayings">Its label and its tags, each as it reads.</param>
/// <param name="Candidates">What it may have been where it was misread, best first.</param>
/// <param name="MoreCandidates">How many candidates there are besides.</param>
public sealed record LabelComparisonView(
    string Verdict, HtmlFragment Why, ImmutableArray<SayingView> Sayings, ImmutableArray<CandidateView> Candidates, int MoreCandidates)
{
    /// <summary>What photos say, in which it was read.</summary>
    public ImmutableArray<PhotographedView> Photographed { get; init; } = [];
}

/// <summary>A label as read in a photo.</summary>
/// <param name="Photo">The photo.</param>
/// <param name="Text">What was read.</param>
/// <param name="Why">How it stands to what was seen and recorded.</param>
/// <param name="Probability">How likely the reading is, such as <c>99.8 %</c>; empty where a person made it.</param>
public sealed record PhotographedView(RecordLink Photo, string Text, HtmlFragment Why, string Probability);

/// <summary>A label or tag as it reads.</summary>
/// <param name="What">Which it is, such as <c>label</c>.</param>
/// <param name="Text">What is printed, exactly as written.</param>
/// <param name="Scheme">The scheme that reads it; null where none does.</param>
/// <param name="Parts">It taken apart; empty where it fits no scheme.</param>
/// <param name="Means">The places it means.</param>
public sealed record SayingView(
    string What, string Text, RecordLink? Scheme, ImmutableArray<PartView> Parts, ImmutableArray<EndPlace> Means);

/// <summary>A stretch of a label.</summary>
/// <param name="Text">The stretch, exactly as written.</param>
/// <param name="Group">What it says, such as <c>row</c>; empty for what stands between.</param>
/// <param name="StandsFor">What it stands for; empty where that is the text itself.</param>
public sealed record PartView(string Text, string Group, string StandsFor)
{
    /// <summary>Whether a narrow screen begins a new line here: at the blank of a label that is too long for one.</summary>
    public bool MayBreak { get; init; }
}

/// <summary>What a misread label or tag may have been.</summary>
/// <param name="Glyphs">The label as it would be, cut where it differs from what was recorded.</param>
/// <param name="Why">How it differs from what was recorded, and how it stands to what was seen.</param>
/// <param name="Means">The places it would mean.</param>
/// <param name="Fits">Whether the ends that were seen are among them, or none was seen.</param>
public sealed record CandidateView(ImmutableArray<GlyphRun> Glyphs, HtmlFragment Why, ImmutableArray<EndPlace> Means, bool Fits);

/// <summary>A stretch of a candidate.</summary>
/// <param name="Text">The stretch.</param>
/// <param name="Differs">Whether something else was recorded there.</param>
public sealed record GlyphRun(string Text, bool Differs);
