using System.Collections.Immutable;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Text;
using Archive.Plans.Safety;
using Archive.Site.Layout;
using Archive.Site.Parts;

namespace Archive.Site.Pages;

/// <summary>The page of a plug-in unit.</summary>
public sealed record UnitPage(PageHead Head) : PageView(Head)
{
    public required string Id { get; init; }

    /// <summary>What people call it; empty where that is the id.</summary>
    public required string Name { get; init; }

    /// <summary>The frame it was found in; null for none.</summary>
    public required RecordLink? Frame { get; init; }

    /// <summary>Where it is now, in words.</summary>
    public required HtmlFragment Status { get; init; }

    /// <summary>Marking, serial, slot, weight and the like.</summary>
    public required ImmutableArray<FactLine> Facts { get; init; }

    /// <summary>How to handle it, and what can hurt here.</summary>
    public required ImmutableArray<Caution> Cautions { get; init; }

    /// <summary>Straps, switches and links, as they were found set.</summary>
    public required ImmutableArray<FactLine> Straps { get; init; }

    /// <summary>The unit before it in its position; null for none.</summary>
    public required RecordLink? Previous { get; init; }

    /// <summary>The unit behind it in its position.</summary>
    public required RecordLink? Next { get; init; }

    /// <summary>Others with the same marking; of very many, the first.</summary>
    public required ImmutableArray<RecordLink> Alike { get; init; }

    /// <summary>How many others have the same marking.</summary>
    public required int AlikeCount { get; init; }

    /// <summary>Photos that show it, by view.</summary>
    public required ImmutableArray<PhotoGroup> Photos { get; init; }

    public required HtmlFragment About { get; init; }

    /// <summary>Condition as found.</summary>
    public required HtmlFragment Condition { get; init; }

    public required HtmlFragment Note { get; init; }

    /// <summary>What happened to it since.</summary>
    public required ImmutableArray<EventLine> Events { get; init; }

    /// <summary>Where its facts come from.</summary>
    public required Provenance Provenance { get; init; }
}
