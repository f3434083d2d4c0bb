using System.Collections.Immutable;
using Archive.Markup.Links;
using Archive.Markup.Text;

namespace Archive.Site.Parts;

/// <summary>A photo in small, leading to its page.</summary>
/// <param name="Picture">The picture; null where it was not developed.</param>
/// <param name="View">Which side it shows; empty where that is not said.</param>
/// <param name="Caption">Its caption in plain words.</param>
public sealed record Thumbnail(RecordLink Photo, Picture? Picture, string View, HtmlFragment Caption)
{
    /// <summary>What is outlined in the picture; empty where nothing is.</summary>
    public ImmutableArray<OutlineView> Outlines { get; init; } = [];
}

/// <summary>A picture of several widths.</summary>
/// <param name="Src">The one that any browser takes.</param>
/// <param name="SrcSet">All of them with their widths, for the browser to choose.</param>
/// <param name="LightSrcSet">Those that there are as WebP, in fewer bytes, with their widths; empty where there are none.</param>
/// <param name="Width">Width of <see cref="Src"/> in pixels.</param>
/// <param name="Height">Height of <see cref="Src"/> in pixels.</param>
/// <param name="Alt">What it shows, in words.</param>
public sealed record Picture(Href Src, string SrcSet, string LightSrcSet, int Width, int Height, string Alt);
