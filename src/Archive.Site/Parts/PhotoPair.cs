using Archive.Markup.Links;

namespace Archive.Site.Parts;

/// <summary>Two photos of one view and place from different days, to be looked at beside each other.</summary>
/// <param name="Of">What they show, such as <c>R2-05, rear</c>.</param>
/// <param name="IsSlide">Whether both have the same shape, so that one can be laid over the other.</param>
public sealed record PhotoPair(string Of, PairedPhoto Earlier, PairedPhoto Later, bool IsSlide);

/// <summary>One of them.</summary>
/// <param name="Day">When it was taken, in words.</param>
public sealed record PairedPhoto(RecordLink Photo, Picture Picture, string Day);
