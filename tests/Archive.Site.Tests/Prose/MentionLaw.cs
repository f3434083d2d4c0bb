using Archive.Diagnostics;
using Archive.Records;
using CsCheck;
using Markdig.Syntax;
using Xunit;

namespace Archive.Site.Tests;

/// <summary>
/// Links are checked in the text as it was typed, and shown as the Markdown library reads it: what it shows as a link is told where it leads
/// nowhere, and what it shows as code is not.
/// </summary>
public sealed class MentionLaw
{
    private static readonly string[] Lines =
    [
        "words @", "@", "  @", "    @", "      @", "        @", "\t@", "- @", "- item", "  - @", "    - @", "-     @", "1. @", "12) item",
        "> @", ">     @", "# @", "***", "`@`", "| a |", "\\@", "", "", "",
    ];

    [Fact]
    public void What_is_shown_as_a_link_is_judged_as_one() => Gen.OneOf([.. Lines.Select(Gen.Const)]).Array[1, 14].Sample(
        lines =>
        {
            var number = 0;
            var text = string.Join('\n', lines.Select(line => line.Replace("@", $"[[X-{number++}]]", StringComparison.Ordinal)));
            Assert.Equal(Shown(text), Told(text));
        },
        iter: 2_000);

    private static IEnumerable<string> Shown(string text) => ProseText.Parse(text)!.Descendants<RecordMention>().Select(mention => mention.Id).Order(StringComparer.Ordinal);

    private static IEnumerable<string> Told(string text)
    {
        var draft = RecordReader.Read(MemoryFolder.Empty.With("archive.yaml", "title: x\n").With("stories/s.md", $"---\ntitle: x\n---\n{text}"), TestContext.Current.CancellationToken);
        return RecordChecks.Check(draft, AsFound.From(draft)).Where(told => told.Kind == Faults.UnknownReference).Select(told => told.Span.Text).Order(StringComparer.Ordinal);
    }
}
