using System.Text;
using Markdig.Syntax;
using Markdig.Syntax.Inlines;

namespace Archive.Markup.Prose;

/// <summary>The headings of a text: what level they have on the page, and the anchors that links within the text lead to.</summary>
internal sealed class ProseHeadings
{
    private readonly Dictionary<HeadingBlock, (int Level, string Id)> _headings = [];
    private readonly HashSet<string> _slugs = new(StringComparer.Ordinal);

    // The number that the next heading of a name gets: many may be called alike.
    private readonly Dictionary<string, int> _next = new(StringComparer.Ordinal);
    private readonly string _prefix;

    /// <summary>Gathers the headings of a document.</summary>
    /// <param name="below">Level of the page's heading that the text stands under.</param>
    /// <param name="prefix">Distinguishes the anchors of this text from others on the page.</param>
    public ProseHeadings(MarkdownDocument document, int below, string prefix)
    {
        _prefix = prefix;
        // Levels may be skipped in the text, but not on the page: each goes at most one below the last that is above it.
        var open = new Stack<int>();
        foreach (var heading in document.Descendants<HeadingBlock>())
        {
            while (open.Count > 0 && open.Peek() >= heading.Level) open.Pop();
            open.Push(heading.Level);
            _headings[heading] = (Math.Min(6, below + open.Count), prefix + "-" + Slug(heading));
        }
    }

    /// <summary>Level and anchor of a heading.</summary>
    /// <param name="heading">A heading of the document.</param>
    public (int Level, string Id) Find(HeadingBlock heading) => _headings.GetValueOrDefault(heading, (6, _prefix));

    /// <summary>Where a link within the text leads.</summary>
    /// <param name="written">The address as written, such as <c>#the-watch</c>.</param>
    /// <returns>The anchor on the page with its <c>#</c>, or null where no heading of the text is called so.</returns>
    public string? Anchor(string? written) =>
        written is { Length: > 1 } && written[0] == '#' && _slugs.Contains(written[1..]) ? $"#{_prefix}-{written[1..]}" : null;

    private string Slug(HeadingBlock heading)
    {
        var slug = new StringBuilder();
        foreach (var literal in heading.Inline?.Descendants<LiteralInline>() ?? [])
        {
            foreach (var c in literal.Content.AsSpan())
            {
                if (char.IsAsciiLetterOrDigit(c)) slug.Append(char.ToLowerInvariant(c));
                else if (slug.Length > 0 && slug[^1] != '-') slug.Append('-');
            }
        }

        var name = slug.ToString().Trim('-');
        if (name.Length == 0) name = "part";
        var unique = name;
        for (var n = _next.GetValueOrDefault(name, 2); !_slugs.Add(unique); _next[name] = n) unique = $"{name}-{n++}";
        return unique;
    }
}
