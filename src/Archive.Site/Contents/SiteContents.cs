using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Documents.Inspection;
using Archive.Halls.Layout;
using Archive.Halls.Trays;
using Archive.Markup.Templates;
using Archive.Photos.Processing;
using Archive.Plans;
using Archive.Plans.Catalog;
using Archive.Plans.Survey;
using Archive.Records.Model;
using Archive.Wiring.Graph;
using Archive.Wiring.Labels;

namespace Archive.Site.Contents;

/// <summary>All that the pages are made from.</summary>
public sealed record SiteContents
{
    /// <summary>The record, and what every plan needs to know of it.</summary>
    public required PlanContext Basis { get; init; }

    public required PlanSet Plans { get; init; }

    public required Theme Theme { get; init; }

    public ArchiveModel Record => Basis.Record;

    /// <summary>Where frames stand.</summary>
    public HallLayouts HallLayouts => Basis.HallLayouts;

    /// <summary>What is known of the cables' ends, from observation and print.</summary>
    public LabelReadings Readings => Basis.Readings;

    /// <summary>What the cables make of the frames.</summary>
    public WiringGraph Graph => Basis.Graph;

    /// <summary>What lies in each tray, by the tray's id.</summary>
    public FrozenDictionary<string, TrayContents> Trays => Basis.Trays;

    /// <summary>Developed photos by photo id; a photo without an entry is shown without a picture.</summary>
    public FrozenDictionary<string, PublishedPhoto> Photos { get; init; } = FrozenDictionary<string, PublishedPhoto>.Empty;

    /// <summary>What was found in the files of documents, by id; those whose files are not published are left out.</summary>
    public FrozenDictionary<string, InspectedDocument> Documents { get; init; } = FrozenDictionary<string, InspectedDocument>.Empty;

    /// <summary>What was found of the photos themselves.</summary>
    public PhotoFindings Findings { get; init; } = PhotoFindings.None;

    /// <summary>Errors that the site is published with; each page says so where there are any.</summary>
    public int Errors { get; init; }
}

/// <summary>A photo as it is published.</summary>
/// <param name="Width">Width of the upright original in pixels.</param>
/// <param name="Height">Height of the upright original in pixels.</param>
/// <param name="Taken">When the camera says it was taken, in words; null where it does not.</param>
/// <param name="Derivatives">What is published of it, widest first.</param>
public sealed record PublishedPhoto(int Width, int Height, string? Taken, ImmutableArray<PublishedPicture> Derivatives)
{
    /// <summary>Those of them that there are as WebP too, widest first.</summary>
    public ImmutableArray<PublishedPicture> LightDerivatives { get; init; } = [];

    /// <summary>The copy to pass on, which has the credit line below it; null where there is no line.</summary>
    public PublishedPicture? Credited { get; init; }

    /// <summary>The folder of its pictures below the site's folder, named by their content; empty where none are published.</summary>
    public string Folder { get; init; } = "";

    /// <summary>How it is cut into tiles, below <see cref="Folder"/>.</summary>
    public TilePyramid Pyramid { get; init; } = new(Width, Height);

    /// <summary>Path of the original below the site's folder; null unless the record says that it may be published.</summary>
    public string? Original { get; init; }

    /// <summary>Whether that is a copy without what the camera noted.</summary>
    public bool IsStripped { get; init; }
}

/// <summary>One published picture of a photo.</summary>
/// <param name="Width">Width in pixels.</param>
/// <param name="Height">Height in pixels.</param>
/// <param name="Path">Path below the site's folder.</param>
public sealed record PublishedPicture(int Width, int Height, string Path);
