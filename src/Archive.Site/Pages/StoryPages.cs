using System.Collections.Immutable;
using Archive.Markup.Links;
using Archive.Markup.Prose;
using Archive.Markup.Text;
using Archive.Records.Model;
using Archive.Site.Indexes;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Storage.Output;

namespace Archive.Site.Pages;

/// <summary>The page of a story.</summary>
public sealed record StoryPage(PageHead Head) : PageView(Head)
{
    public required string Title { get; init; }

    public required HtmlFragment Body { get; init; }

    /// <summary>The story before it.</summary>
    public required RecordLink? Previous { get; init; }

    /// <summary>The story behind it.</summary>
    public required RecordLink? Next { get; init; }

    /// <summary>Where its facts come from.</summary>
    public required Provenance Provenance { get; init; }
}

/// <summary>Makes the pages of stories.</summary>
internal sealed class StoryPages(ArchiveModel archive, PageFactory pageFactory, ProseRenderer prose, ProvenanceBuilder provenances)
{
    private readonly ImmutableArray<Story> _stories = InOrder(archive);

    /// <summary>Stories as the record orders them; those without an order last, then by id.</summary>
    public static ImmutableArray<Story> InOrder(ArchiveModel record) =>
        [.. record.Stories
            .Where(story => !story.IsWithdrawn)
            .OrderBy(story => story.Order?.Value ?? int.MaxValue)
            .ThenBy(story => story.Id, StringComparer.Ordinal)];

    /// <summary>The page of a story.</summary>
    /// <param name="story">A story that stands.</param>
    public OutputFile Create(Story story) => pageFactory.Page(PagePaths.For(story), location => View(story, location));

    /// <summary>What a story's page shows.</summary>
    public StoryPage View(Story story, PageLocation location)
    {
        var index = _stories.IndexOf(story);
        var trail = new Link("Stories", location.To(PagePaths.Index(RecordKind.Story)));
        return new StoryPage(pageFactory.Head("story", location, story.Title, Start(story), trail))
        {
            Title = story.Title,
            Body = prose.Story(story, location),
            Previous = index > 0 ? RecordLink.To(_stories[index - 1], location) : null,
            Next = index + 1 < _stories.Length ? RecordLink.To(_stories[index + 1], location) : null,
            Provenance = provenances.Create(story, location),
        };
    }

    // The first words, for the description that search engines show.
    private static string Start(Story story)
    {
        const int most = 150;
        var text = MarkdownText.Untitled(MarkdownText.Plain(story.Body.Value), story.Title);
        if (text.Length <= most) return text;
        var blank = text.LastIndexOf(' ', most);
        return text[..(blank > 0 ? blank : most)] + "…";
    }
}
