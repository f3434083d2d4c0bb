namespace Archive.Plans.Safety;

/// <summary>A caution on a page where the work can hurt someone.</summary>
/// <param name="Title">The hazard, in a few words.</param>
/// <param name="Text">What to watch out for, and who decides.</param>
public sealed record Caution(string Title, string Text);
