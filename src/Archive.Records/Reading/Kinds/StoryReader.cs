using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Reading.Format;
using Archive.Records.Reading.Syntax;
using Archive.Records.Reading.Values;
using Archive.Records.Terms;

namespace Archive.Records.Reading.Kinds;

/// <summary>Reads <c>stories/</c>: Markdown files with a YAML head between two lines of <c>---</c>.</summary>
internal static class StoryReader
{
    private const string Fence = "---";

    /// <summary>Reads a story.</summary>
    /// <param name="diagnostics">Collects the diagnostics.</param>
    /// <returns>The story, or null where it has no id that can be used.</returns>
    public static ArchiveRecord? Read(SourceText source, DiagnosticBag diagnostics)
    {
        if (HeadOf(source) is not { } head)
        {
            diagnostics.Add(DiagnosticDescriptors.StoryHead.At(
                new SourceSpan(source, 0, source.Line(0).Length),
                source.Line(0).TrimEnd() == Fence ? "the header of this story is not closed" : "this story has no header",
                "start with a line `---`, then `title: …`, then a line `---`"));
            return null;
        }

        var body = Body(source, head.Body);
        if (body.Value.Length > YamlSyntax.LongestScalar)
        {
            diagnostics.Add(DiagnosticDescriptors.ScalarTooLong.At(
                body.Span.Slice(0, 1),
                $"this story has {body.Value.Length} characters, more than {YamlSyntax.LongestScalar}",
                "split it into several stories"));
            body = body with { Value = string.Empty, Span = body.Span with { Length = 0 } };
        }

        var faults = diagnostics.Count;
        var syntax = new YamlSyntax(new SourceSpan(source, head.Start, head.End - head.Start), diagnostics);
        if (syntax.Next() is not MappingNode mapping)
        {
            if (diagnostics.Count == faults) diagnostics.Add(DiagnosticDescriptors.StoryHead.At(
                new SourceSpan(source, 0, Fence.Length),
                "the header of this story is not a mapping of keys to values",
                "write `title: …` in it"));
            return null;
        }

        var stem = Path.GetFileNameWithoutExtension(source.Path);
        if (!mapping.Entries.Any(entry => entry.Key.Text == "id") && !RecordId.IsValid(stem))
        {
            diagnostics.Add(DiagnosticDescriptors.BadId.At(
                new SourceSpan(source, 0, Fence.Length),
                $"`{stem}`, the name of this file, is not an id",
                "add `id: …` to the header, or rename the file"));
        }

        var record = RecordKindReaders.Read(
            new MappingReader(mapping, StoryFormat.All, diagnostics),
            (from, common) => Story(from, common, source, body),
            new Stated<string>(stem, new SourceSpan(source, 0, Fence.Length)));
        return record is not null && RecordId.IsValid(record.Id) ? record : null;
    }

    /// <summary>The head of a story; null where it has none.</summary>
    public static MappingNode? Head(SourceText source) =>
        HeadOf(source) is { } head
            ? new YamlSyntax(new SourceSpan(source, head.Start, head.End - head.Start), new DiagnosticBag()).Next() as MappingNode
            : null;

    private static Story Story(MappingReader from, CommonFields common, SourceText source, Stated<string> body)
    {
        var story = new Story
        {
            Id = common.Id,
            IdSpan = common.IdSpan,
            Span = source.Whole,
            Heading = from.Read(StoryFormat.Title),
            Order = from.Read(StoryFormat.Order),
            Body = body,
        };
        return story;
    }

    private static Stated<string> Body(SourceText source, int start)
    {
        var text = source.Text.AsSpan(start);
        var blank = text.Length - text.TrimStart("\r\n").Length;
        var span = new SourceSpan(source, start + blank, text.TrimEnd().Length - Math.Min(blank, text.TrimEnd().Length));
        return new Stated<string>(span.Text, span);
    }

    // Offsets of the YAML and of what follows the second fence.
    private static (int Start, int End, int Body)? HeadOf(SourceText source)
    {
        if (source.Line(0).TrimEnd() != Fence) return null;
        for (var line = 1; line < source.LineCount; line++)
        {
            if (source.Line(line).TrimEnd() is not (Fence or "...")) continue;
            var start = source.OffsetOf(1, 0);
            return (start, source.OffsetOf(line, 0), line + 1 < source.LineCount ? source.OffsetOf(line + 1, 0) : source.Text.Length);
        }

        return null;
    }
}
