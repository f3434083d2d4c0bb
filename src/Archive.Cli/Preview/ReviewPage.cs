using System.Collections.Immutable;
using System.Globalization;
using System.Net;
using System.Text;
using Archive.Cli.Output;
using Archive.Diagnostics.Rendering;
using Archive.Proposals;
using Archive.Records.Model;

namespace Archive.Cli.Preview;

/// <summary>
/// The page in which proposals are decided: what the record says beside what is proposed, and the picture or the cell it comes from. It is
/// a form, and works without scripts and without a mouse.
/// </summary>
internal static class ReviewPage
{
    /// <summary>Where it is.</summary>
    internal const string Path = "/.preview/review/";

    /// <summary>Before the id of a proposal, in the names of the form's fields.</summary>
    internal const string Field = "decide:";

    /// <summary>Before the id of a proposal that is left out of a new record.</summary>
    internal const string LeftOut = "leave:";

    /// <summary>Before the id of a proposal, in the name of the field for what a person types instead.</summary>
    internal const string Instead = "instead:";

    /// <summary>The drawing of all proposals together, behind the address of the page.</summary>
    internal const string DrawingName = "drawing.svg";

    // What follows is shown once these are decided.
    private const int MostShown = 200;

    private static readonly string[] Shown = [".jpg", ".jpeg", ".png", ".webp"];

    /// <summary>What it may load: its own style and script, and pictures of this server. Nothing may show it in a frame.</summary>
    internal const string Policy =
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

    internal static byte[] Script { get; } = PreviewPage.Resource("preview.review.js");

    internal static byte[] Style { get; } = PreviewPage.Resource("preview.review.css");

    /// <summary>The page.</summary>
    internal static string Html(ReviewSession session)
    {
        var open = session.Proposals.Where(proposal => proposal.IsOpen).ToList();
        var page = new StringBuilder(
            "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width\">"
            + "<title>Proposals</title><link rel=\"stylesheet\" href=\"/.preview/review.css\">"
            + "<script src=\"/.preview/review.js\" defer></script><body><main><h1>Proposals</h1>");
        foreach (var message in session.Messages) page.Append($"<p class=\"message\" role=\"status\">{Text(message)}</p>");
        if (open.Count == 0) return page.Append("<p>Nothing waits for a decision.</p></main></body></html>\n").ToString();
        page.Append($"<p>{ResultWriter.Number(open.Count, "proposal")} to decide")
            .Append(open.Count > MostShown ? $"; the first {MostShown} are here" : "")
            .Append(". Nothing is written but what you accept. ")
            .Append("Keys: <kbd>a</kbd> accept, <kbd>r</kbd> reject, <kbd>l</kbd> later, ")
            .Append(open.Exists(proposal => proposal.Fact.RunnerUp is not null) ? "<kbd>2</kbd> take the runner-up, " : "")
            .Append("<kbd>c</kbd> correct, then <kbd>Enter</kbd>; <kbd>j</kbd> next, <kbd>k</kbd> back, <kbd>w</kbd> write.</p>")
            .Append($"<form method=\"post\" action=\"{Path}\"><input type=\"hidden\" name=\"token\" value=\"{session.Token}\">");
        if (session.HasDrawing)
        {
            page.Append($"<figure class=\"drawing\"><img src=\"{Path}{DrawingName}\" ")
                .Append("alt=\"The sheet beside the plan of what is proposed\"></figure>");
        }

        foreach (var record in open.Take(MostShown).GroupBy(proposal => proposal.Fact.RecordId))
            Append(page, session, record.Key, [.. record]);
        Unplaced(page, session.Proposals);
        return page.Append("<p class=\"end\"><button>Write what is accepted</button></p></form></main></body></html>\n").ToString();
    }

    /// <summary>The picture at a place in the list; null for none.</summary>
    /// <param name="path">What is behind the address of the page: <c>picture/7</c>.</param>
    internal static string? PictureAt(ReviewSession session, string path) =>
        At(session, "picture/", path) is { } proposal ? Picture(session, proposal) : null;

    /// <summary>The print that the proposal at a place in the list was read from; null for none.</summary>
    /// <param name="path">What is behind the address of the page: <c>print/7</c>.</param>
    internal static byte[]? CutoutAt(ReviewSession session, string path) =>
        At(session, "print/", path) is { } proposal ? session.CutoutOf(proposal.Fact.Origin) : null;

    private static Proposal? At(ReviewSession session, string folder, string path)
    {
        var proposals = session.Proposals;
        return path.StartsWith(folder, StringComparison.Ordinal)
            && int.TryParse(path.AsSpan(folder.Length), NumberStyles.None, CultureInfo.InvariantCulture, out var at)
            && at < proposals.Length
            ? proposals[at]
            : null;
    }

    private static void Append(StringBuilder page, ReviewSession session, string id, ImmutableArray<Proposal> proposals)
    {
        var first = proposals[0];
        var what = (first.IsNewRecord ? "new " : "") + (first.Fact.RecordKind?.Noun() ?? "archive");
        page.Append($"<section><h2>{Text(id)} <small>{Text(what)}{(first.File is { } file ? ", " + Text(file) : "")}</small></h2>");

        // A picture of all facts is shown once.
        if (first.Fact.Origin.Box is null) Figure(page, session, first);
        ImmutableArray<Proposal> together = [.. proposals.Where(proposal => proposal is { IsNewRecord: true, Kind: ProposalKind.New })];
        if (together.Length > 1) AppendNew(page, id, together);
        else together = [];
        foreach (var proposal in proposals.Except(together))
        {
            page.Append($"<fieldset tabindex=\"-1\"><legend>{Text(proposal.Fact.Key)} <em>{Kind(proposal.Kind)}</em></legend>");
            var isRead = proposal.Fact.Origin.Angle is not null;
            if (isRead) Print(page, session, proposal);
            page.Append(isRead ? "<dl class=\"read\">" : "<dl>");
            if (proposal.Current is { } current)
                page.Append($"<dt>Now</dt><dd>{Text(current.Text)}{Evidence(current.Evidence.Entries)}</dd>");
            page.Append($"<dt>Proposed</dt><dd><strong>{Text(proposal.Fact.Value.Text)}</strong>")
                .Append(Evidence(proposal.Fact.Evidence?.Entries ?? [])).Append("</dd>");
            if (proposal.Fact.RunnerUp is { } other)
                page.Append($"<dt>Or</dt><dd><strong>{Marked(other, proposal.Fact.Value.Text)}</strong></dd>");
            if (proposal.Fact.Hint is { } hint) page.Append($"<dt>Compare</dt><dd>{Text(hint)}</dd>");
            page.Append("<dt>From</dt><dd>");
            page.Append(string.Join("<br>", proposal.Origins.Select(origin =>
                Text(origin.ToString()) + (origin.Text is { } said ? $": “{Text(said)}”" : ""))));
            page.Append("</dd></dl>");
            if (isRead) page.Append("<details><summary>Photo</summary>");
            if (proposal.Fact.Origin.Box is not null) Figure(page, session, proposal);
            if (isRead) page.Append("</details>");
            if (proposal.Why is { } why) page.Append($"<p class=\"why\">{Text(why)}</p>");
            Choice(page, proposal.Id, ReviewDecisions.Of(proposal), proposal.Fact.Value.Text);
            page.Append("</fieldset>");
        }

        page.Append("</section>");
    }

    // A new record is decided as a whole; facts can be left out of it.
    private static void AppendNew(StringBuilder page, string id, ImmutableArray<Proposal> proposals)
    {
        page.Append("<fieldset tabindex=\"-1\"><legend>the whole record <em>new</em></legend><dl>");
        foreach (var proposal in proposals)
        {
            page.Append($"<dt>{Text(proposal.Fact.Key)}</dt><dd><strong>{Text(proposal.Fact.Value.Text)}</strong>")
                .Append(Evidence(proposal.Fact.Evidence?.Entries ?? []))
                .Append(proposal.Fact.Comment is { } comment ? $" <small>{Text(comment)}</small>" : "")
                .Append($" <label class=\"leave\"><input type=\"checkbox\" name=\"{Text(LeftOut + proposal.Id)}\"> leave out</label></dd>");
        }

        var origins = proposals.SelectMany(proposal => proposal.Origins).Select(origin => Text(origin.ToString())).Distinct();
        page.Append($"<dt>From</dt><dd>{string.Join("<br>", origins)}</dd></dl>");
        Choice(page, id, [Decision.Later, Decision.Accept, Decision.Reject], "");
        page.Append("</fieldset>");
    }

    private static void Choice(StringBuilder page, string id, IEnumerable<Decision> decisions, string value)
    {
        page.Append("<p class=\"choice\">");
        foreach (var decision in decisions)
        {
            var word = ReviewDecisions.Word(decision);
            page.Append($"<label><input type=\"radio\" name=\"{Text(Field + id)}\" value=\"{word}\"")
                .Append(decision == Decision.Later ? " checked" : "").Append($"> {word}</label> ");
            if (decision == Decision.Correct)
            {
                page.Append($"<input name=\"{Text(Instead + id)}\" value=\"{Text(value)}\"")
                    .Append(" aria-label=\"correct to\" autocomplete=\"off\" spellcheck=\"false\">");
            }
        }

        page.Append("</p>");
    }

    private static void Unplaced(StringBuilder page, ImmutableArray<Proposal> proposals)
    {
        var unplaced = proposals.Where(proposal => proposal.Kind == ProposalKind.Unplaced).ToList();
        if (unplaced.Count == 0) return;
        page.Append($"<details><summary>{ResultWriter.Number(unplaced.Count, "fact")} cannot be placed</summary><ul>");
        foreach (var proposal in unplaced.Take(MostShown))
            page.Append($"<li>{Text($"{proposal.Id} = {proposal.Fact.Value.Text}: {proposal.Why} ({proposal.Fact.Origin})")}</li>");
        page.Append("</ul></details>");
    }

    private static void Figure(StringBuilder page, ReviewSession session, Proposal proposal)
    {
        if (Picture(session, proposal) is null) return;
        var at = session.Proposals.IndexOf(proposal);
        page.Append($"<figure><img src=\"{Path}picture/{at}\" alt=\"{Text(proposal.Fact.Origin.File)}\" loading=\"lazy\">");
        if (proposal.Fact.Origin.Box is { } box)
        {
            page.Append("<svg viewBox=\"0 0 1 1\" preserveAspectRatio=\"none\" aria-hidden=\"true\">").Append(string.Create(
                CultureInfo.InvariantCulture,
                $"<rect x=\"{box.Left:0.####}\" y=\"{box.Top:0.####}\" width=\"{box.Width:0.####}\" height=\"{box.Height:0.####}\"/>"))
                .Append("</svg>");
        }

        page.Append("</figure>");
    }

    private static void Print(StringBuilder page, ReviewSession session, Proposal proposal) => page
        .Append($"<img class=\"print\" src=\"{Path}print/{session.Proposals.IndexOf(proposal)}\"")
        .Append(" alt=\"the line that was read, turned upright\" loading=\"lazy\">");

    // The letters in which a text differs from another, so that the eye finds them at once.
    private static string Marked(string text, string from)
    {
        var marked = new StringBuilder();
        for (var at = 0; at < text.Length; at++)
        {
            var letter = Text(text[at..(at + 1)]);
            marked.Append(at < from.Length && text[at] == from[at] ? letter : $"<mark>{letter}</mark>");
        }

        return marked.ToString();
    }

    private static string? Picture(ReviewSession session, Proposal proposal) =>
        session.PictureOf(proposal.Fact.Origin) is { } path
            && Shown.Contains(System.IO.Path.GetExtension(path), StringComparer.OrdinalIgnoreCase) && File.Exists(path)
            ? path
            : null;

    private static string Kind(ProposalKind kind) => kind.ToString().ToLowerInvariant();

    private static string Evidence(IEnumerable<(string Key, string Value)> entries)
    {
        var words = string.Join(", ", entries.Select(entry => $"{entry.Key} {entry.Value}"));
        return words.Length == 0 ? "" : $" <small>{Text(words)}</small>";
    }

    private static string Text(string text) => WebUtility.HtmlEncode(VisibleText.Text(text));
}
