using Archive.Diagnostics.Descriptors;
using Archive.Markup.Prose;
using Archive.Records.Checks;
using Archive.Records.Model;
using Archive.Records.Reading;
using CsCheck;
using Markdig.Syntax;
using Xunit;

namespace Archive.Markup.Tests.Prose;

/// <summary>
/// Links are checked in the text exactly as typed, and shown as the Markdown library reads it: what it shows as a link is reported where it
/// leads nowhere, and what it shows as code is not.
/// </summary>
public sealed class MentionPropertyTests
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

    private static IEnumerable<string> Shown(string text) =>
        MarkdownText.Parse(text)!.Descendants<RecordMention>().Select(mention => mention.Id).Order(StringComparer.Ordinal);

    private static IEnumerable<string> Told(string text)
    {
        var parsed = RecordReader.Read(
            InMemoryFolder.Empty.With("archive.yaml", "title: x\n").With("stories/s.md", $"---\ntitle: x\n---\n{text}"),
            TestContext.Current.CancellationToken);
        return RecordChecks.Check(parsed, ArchiveModel.From(parsed))
            .Where(told => told.Descriptor == DiagnosticDescriptors.UnknownReference)
            .Select(told => told.Span.Text)
            .Order(StringComparer.Ordinal);
    }
}
