using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Wiring.Labels;

namespace Archive.PhotoLabels.Reading;

/// <summary>A label as read in photos: of one sleeve or tag, in one photo or several.</summary>
/// <param name="Places">Where it was read.</param>
/// <param name="Scheme">Id of the scheme.</param>
/// <param name="Label">The most likely label.</param>
/// <param name="Means">The ends that it means, as the scheme spells them.</param>
/// <param name="Probability">From 0 to 1, with all readings of the archive taken together.</param>
/// <param name="Alone">Of the clearest photo taken by itself.</param>
/// <param name="RunnerUp">What else it may be; null where nothing else is likely.</param>
/// <param name="Cable">Id of the cable that it is on; null where photo and record do not say.</param>
/// <param name="Witness">How it stands to what was recorded and seen; null where the cable is not known.</param>
public sealed record ReadLabel(
    ImmutableArray<ReadPlace> Places,
    string Scheme,
    string Label,
    ImmutableArray<Address> Means,
    double Probability,
    double Alone,
    LabelAlternative? RunnerUp,
    string? Cable,
    PhotographedLabel? Witness);

/// <summary>A place in a photo.</summary>
/// <param name="Photo">Id of the photo.</param>
/// <param name="File">Path of the picture within the archive.</param>
/// <param name="Box">The upright rectangle around the line, cut off at the picture's edges.</param>
/// <param name="Angle">Which way the print runs, whole degrees clockwise from the picture's rows, -180 to 180.</param>
/// <param name="Probability">Of the label that was chosen, in this photo taken by itself.</param>
public sealed record ReadPlace(string Photo, string File, ImageBox Box, int Angle, double Probability);

/// <summary>Another label that it may be.</summary>
public sealed record LabelAlternative(string Scheme, string Label, double Probability);

/// <summary>A photo in which labels were looked for and not read.</summary>
/// <param name="Why">Lower case, no full stop, after the photo's id.</param>
public sealed record UnreadPhoto(string Photo, string Why);
