using System.Collections.Immutable;
using Archive.Markup.Links;
using Archive.Markup.Prose;
using Archive.Markup.Text;
using Archive.Plans.Sets;
using Archive.Records.Model;
using Archive.Site.Contents;
using Archive.Site.Indexes;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Site.PlanPages;
using Archive.Storage.Output;

namespace Archive.Site.Pages;

/// <summary>The page of a display.</summary>
public sealed record DisplayPage(PageHead Head) : PageView(Head)
{
    public required string Id { get; init; }

    /// <summary>What people call it.</summary>
    public required string Name { get; init; }

    /// <summary>What it needs; all of them.</summary>
    public required ImmutableArray<NeedLine> Needs { get; init; }

    /// <summary>The fewest frames that it runs with, as calculated; empty where its needs cannot be met.</summary>
    public required ImmutableArray<RecordLink> Set { get; init; }

    /// <summary>Plans that say more of the set: what it weighs and draws, and how its cables are laid back.</summary>
    public required ImmutableArray<Link> Plans { get; init; }

    public required HtmlFragment About { get; init; }

    public required HtmlFragment Note { get; init; }

    /// <summary>Where its facts come from.</summary>
    public required Provenance Provenance { get; init; }
}

/// <summary>Makes the pages of displays.</summary>
internal sealed class DisplayPages(
    SiteContents site, PageFactory pageFactory, ProseRenderer prose, RowBuilder rowBuilder, ProvenanceBuilder provenances)
{
    /// <summary>The page of a display.</summary>
    /// <param name="display">A display that stands.</param>
    public OutputFile Create(Display display) => pageFactory.Page(PagePaths.For(display), location =>
        new DisplayPage(pageFactory.Head(
            "display",
            location,
            display.Title,
            $"{display.Title}: the frames needed to run it.",
            [new Link("Displays", location.To(PagePaths.Index(RecordKind.Display)))]))
        {
            Id = display.Id,
            Name = display.Title,
            Needs = rowBuilder.Needs(display.Needs, location),
            Set = [.. SetOf(display).Select(frame => RecordLink.To(frame, location))],
            Plans =
            [
                new Link("Weight, power and cables of this set", location.To(WorkingSetsPlan.Kind.Page)),
                .. SetOf(display).IsEmpty
                    ? Array.Empty<Link>()
                    : [new Link("How to reconnect its cables", location.To(ReconnectionPages.PathOf(display)))],
            ],
            About = prose.Blocks(display.About?.Value, location),
            Note = prose.Blocks(display.Note?.Value, location, 2, "note"),
            Provenance = provenances.Create(display, location),
        });

    private ImmutableArray<Frame> SetOf(Display display) => site.Basis.Sets.Find(display.Id) is { IsMet: true } set ? set.Frames : [];
}
