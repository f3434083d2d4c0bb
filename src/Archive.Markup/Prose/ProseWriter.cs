using System.Globalization;
using Archive.Markup.Links;
using Archive.Markup.Text;
using Archive.Records.Model;
using Markdig.Extensions.Tables;
using Markdig.Renderers;
using Markdig.Renderers.Html;
using Markdig.Renderers.Html.Inlines;
using Markdig.Syntax;
using Markdig.Syntax.Inlines;

namespace Archive.Markup.Prose;

/// <summary>Writes parsed prose as markup for one page.</summary>
internal sealed class ProseWriter : HtmlRenderer
{
    private readonly ArchiveModel _record;
    private readonly PageLocation _location;
    private readonly ProseHeadings _headings;

    /// <summary>A writer for one text on one page.</summary>
    /// <param name="writer">Where the markup goes.</param>
    /// <param name="record">Where mentioned records are found.</param>
    /// <param name="headings">The text's headings, shifted below the page's own.</param>
    public ProseWriter(TextWriter writer, ArchiveModel record, PageLocation location, ProseHeadings headings)
        : base(writer)
    {
        _record = record;
        _location = location;
        _headings = headings;
        MarkdownText.Pipeline.Setup(this);
        ObjectRenderers.Replace<LinkInlineRenderer>(new LinkWriter());
        ObjectRenderers.Replace<AutolinkInlineRenderer>(new AutolinkWriter());
        ObjectRenderers.Replace<HtmlInlineRenderer>(new HtmlTextWriter());
        ObjectRenderers.Replace<HtmlBlockRenderer>(new HtmlBlockWriter());
        ObjectRenderers.Replace<HeadingRenderer>(new HeadingWriter());
        ObjectRenderers.Replace<CodeBlockRenderer>(new CodeWriter());
        ObjectRenderers.Replace<HtmlTableRenderer>(new TableWriter());
        ObjectRenderers.Add(new MentionWriter());
    }

    private void Text(string text) => Write(HtmlEscaping.Html(text));

    private void Link(string href, string? rel, Action text)
    {
        Write("<a href=\"").Write(HtmlEscaping.Html(href)).Write("\"");
        if (rel is not null) Write(" rel=\"").Write(rel).Write("\"");
        Write(">");
        text();
        Write("</a>");
    }

    private sealed class MentionWriter : HtmlObjectRenderer<RecordMention>
    {
        protected override void Write(HtmlRenderer renderer, RecordMention mention)
        {
            var prose = (ProseWriter)renderer;
            var record = prose._record.Find(mention.Id);
            if (record is null) prose.Text(mention.Text ?? mention.Id);
            else prose.Link(prose._location.To(record).Value, null, () => Text(prose, mention, record));
        }

        private static void Text(ProseWriter prose, RecordMention mention, ArchiveRecord record)
        {
            if (mention.Text is not null || !RecordNames.IsById(record)) prose.Text(mention.Text ?? record.Title);
            else prose.Write("<b class=\"id\">").Write(HtmlEscaping.Html(record.Id)).Write("</b>");
        }
    }

    // A picture in prose is not shown: pages show the record's photos only, and ask nothing of another host. Its words stay.
    private sealed class LinkWriter : HtmlObjectRenderer<LinkInline>
    {
        protected override void Write(HtmlRenderer renderer, LinkInline link)
        {
            var prose = (ProseWriter)renderer;
            var url = link.GetDynamicUrl?.Invoke() ?? link.Url;
            var href = ExternalLink.Outside(url) ?? prose._headings.Anchor(url);
            if (href is null) prose.WriteChildren(link);
            else prose.Link(href, href[0] == '#' ? null : "external", () => prose.WriteChildren(link));
        }
    }

    private sealed class AutolinkWriter : HtmlObjectRenderer<AutolinkInline>
    {
        protected override void Write(HtmlRenderer renderer, AutolinkInline link)
        {
            var prose = (ProseWriter)renderer;
            var href = ExternalLink.Outside(link.IsEmail ? "mailto:" + link.Url : link.Url);
            if (href is null) prose.Text(link.Url);
            else prose.Link(href, "external", () => prose.Text(link.Url));
        }
    }

    private sealed class HtmlTextWriter : HtmlObjectRenderer<HtmlInline>
    {
        protected override void Write(HtmlRenderer renderer, HtmlInline html) => ((ProseWriter)renderer).Text(html.Tag);
    }

    private sealed class HtmlBlockWriter : HtmlObjectRenderer<HtmlBlock>
    {
        protected override void Write(HtmlRenderer renderer, HtmlBlock html)
        {
            renderer.Write("<p>");
            ((ProseWriter)renderer).Text(html.Lines.ToString().Trim());
            renderer.WriteLine("</p>");
        }
    }

    private sealed class HeadingWriter : HtmlObjectRenderer<HeadingBlock>
    {
        protected override void Write(HtmlRenderer renderer, HeadingBlock heading)
        {
            var (level, id) = ((ProseWriter)renderer)._headings.Find(heading);
            var tag = level.ToString(CultureInfo.InvariantCulture);
            renderer.Write("<h").Write(tag).Write(" id=\"").Write(id).Write("\">");
            renderer.WriteLeafInline(heading);
            renderer.Write("</h").Write(tag).WriteLine(">");
        }
    }

    private sealed class CodeWriter : HtmlObjectRenderer<CodeBlock>
    {
        protected override void Write(HtmlRenderer renderer, CodeBlock code)
        {
            renderer.Write("<pre><code>");
            ((ProseWriter)renderer).Text(code.Lines.ToString());
            renderer.WriteLine("</code></pre>");
        }
    }

    // A wide table scrolls in its own box, which can be reached by keyboard; the page does not.
    private sealed class TableWriter : HtmlTableRenderer
    {
        protected override void Write(HtmlRenderer renderer, Table table)
        {
            renderer.Write("<div class=\"table-box\" role=\"group\" aria-label=\"Table\" tabindex=\"0\">");
            base.Write(renderer, table);
            renderer.WriteLine("</div>");
        }
    }
}
