using System.Buffers;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using YamlDotNet.Core;

namespace Archive.Records.Reading.Syntax;

/// <summary>Reports the parser's complaints in plain words, at the place where the fix is to be made.</summary>
internal static class YamlDiagnostics
{
    private static readonly SearchValues<char> KeyLetters = SearchValues.Create("abcdefghijklmnopqrstuvwxyz_");

    // What the parser says, in part -> what we say, and what to do. The first that fits is taken.
    private static readonly (string Said, string Message, string Help)[] Words =
    [
        (
            "did not find expected '-' indicator",
            "this line is neither an item of the list above nor a key of the record above",
            "align it with the keys of its record, or start it with `- `"),
        (
            "did not find expected key",
            "a key was expected here",
            "write `key: value`, aligned with the keys above; put quotes around text that contains quotes or `: `"),
        ("found invalid mapping", "there is a `: ` where no key can be", "align the key with those above, or put the text in quotes"),
        ("cannot start any token", "a value cannot start with this character", "put the value in quotes"),
        (
            "did not find expected ',' or '}'",
            "a mapping opened with `{` is broken here",
            "put a comma between its entries, or close it with `}`"),
        (
            "did not find expected ',' or ']'",
            "a list opened with `[` is broken here",
            "put a comma between its items, or close it with `]`"),
        ("wrong indentation", "quoted text is not closed on its line", "close the quotes, or indent the following lines"),
        ("unexpected end of stream", "quoted text is never closed", "close the quotes"),
        ("unknown escape character", "a backslash in double quotes starts an unknown escape", "use single quotes, or write `\\\\`"),
        ("decimal number", "a backslash escape needs hexadecimal digits", "use single quotes, or write `\\\\`"),
        ("did not find expected node content", "a value was expected here", "write a value, or remove the extra comma or bracket"),
        ("document start", "there is text after the end of a document", "start the next document with `---`"),
        ("version directive", "`%YAML` is given twice", "remove one of them"),
        ("incompatible YAML document", "this YAML version is not supported", "remove the `%YAML` line"),
        ("could not find expected ':'", "this line has no `:` after its key", "write `key: value`"),
        ("simple key", "this line has no `:` after its key", "write `key: value`"),
    ];

    /// <summary>Tells an exception of the parser.</summary>
    /// <param name="exception">What it threw.</param>
    /// <param name="read">What the parser was given.</param>
    /// <param name="seen">Offset of the last thing that was read well.</param>
    /// <param name="open">The collections that are open, innermost first.</param>
    public static Diagnostic From(YamlException exception, SourceSpan read, int seen, IEnumerable<SourceSpan> open)
    {
        var source = read.Source;
        var span = SpanOf(exception, read);
        if (exception is TooLargeException)
        {
            return DiagnosticDescriptors.ScalarTooLong.At(
                span with { Length = 0 },
                $"a record with more than {YamlSyntax.LargestRecord} values; the rest of the file is not read",
                "split it, or look for a bracket that was never closed");
        }

        if (exception is TooDeepException)
        {
            return DiagnosticDescriptors.YamlTooDeep.At(
                span with { Length = 1 },
                $"nested more than {YamlSyntax.DeepestNesting} levels deep; the rest of the file is not read",
                "reduce the nesting");
        }

        if (exception.Message.Contains("tab", StringComparison.Ordinal) && TabAfter(source, seen) is { } tab)
        {
            return DiagnosticDescriptors.YamlSyntax.At(tab, "this line is indented with a tab", "indent with spaces");
        }

        var isUnclosed = exception.Message.Contains("did not find expected ','", StringComparison.Ordinal)
            && source.Text.AsSpan(span.Start, Math.Max(read.End - span.Start, 0)).IsWhiteSpace();
        if (isUnclosed) return Unclosed(source, seen, open);
        if (CommentBefore(source, seen, span.Start, open) is { } comment) return comment;
        if (exception.Message.Contains("did not find expected key", StringComparison.Ordinal) && Ended(span) is { } ended) return ended;
        if (MissingSpace(span) is { } missing) return missing;
        foreach (var (said, message, help) in Words)
        {
            if (exception.Message.Contains(said, StringComparison.Ordinal)) return DiagnosticDescriptors.YamlSyntax.At(span, message, help);
        }

        return DiagnosticDescriptors.YamlSyntax.At(
            span,
            "this is not YAML: " + exception.Message.TrimEnd('.').ToLowerInvariant(),
            "check the indentation, quotes and brackets around here");
    }

    /// <summary>Tells that the parser stopped without a place: an open bracket met a line that it cannot hold.</summary>
    /// <param name="seen">Offset of the last thing that was read well.</param>
    /// <param name="open">The collections that are open, innermost first.</param>
    public static Diagnostic Unclosed(SourceText source, int seen, IEnumerable<SourceSpan> open)
    {
        if (CommentBefore(source, seen, seen, open) is { } comment) return comment;

        // The bracket may be one that the parser had not yet come to tell of.
        var ahead = source.Text.AsSpan(seen).IndexOfAny('[', '{');
        var start = open.Select(span => span.Start).FirstOrDefault(at => source.Text[at] is '[' or '{', seen + Math.Max(ahead, 0));
        var span = new SourceSpan(source, start, Math.Min(1, source.Text.Length - start));
        return span.Text == "{"
            ? DiagnosticDescriptors.YamlSyntax.At(span, "this mapping is never closed", "close it with `}`, and look for a missing comma")
            : DiagnosticDescriptors.YamlSyntax.At(span, "this list is never closed", "close it with `]`, and look for a missing comma");
    }

    /// <summary>Tells a tag of which the parser can make nothing.</summary>
    /// <param name="seen">Offset of the last thing that was read well.</param>
    public static Diagnostic NoTag(SourceText source, int seen)
    {
        var mark = source.Text.AsSpan(seen).IndexOf('!');
        var start = seen + Math.Max(mark, 0);
        var length = source.Text.AsSpan(start).IndexOfAny(" \t\r\n");
        return DiagnosticDescriptors.YamlSyntax.At(
            new SourceSpan(source, start, length >= 0 ? length : source.Text.Length - start),
            "a malformed tag",
            "remove the tag; put quotes around text that starts with `!`");
    }

    // A bracket that a comment keeps from being closed. It is looked for up to the line on which reading stopped.
    private static Diagnostic? CommentBefore(SourceText source, int seen, int stopped, IEnumerable<SourceSpan> open)
    {
        var outermost = open.Select(span => span.Start).Where(at => source.Text[at] is '[' or '{').DefaultIfEmpty(-1).Min();
        if (outermost < 0) outermost = source.Text.AsSpan(seen).IndexOfAny('[', '{') is >= 0 and var ahead ? seen + ahead : -1;
        if (outermost < 0) return null;
        var line = source.Text.IndexOf('\n', Math.Max(seen, outermost));
        return CommentInValue.InBracket(source, outermost, Math.Max(line < 0 ? source.Text.Length : line, stopped)) is { } comment
            ? DiagnosticDescriptors.YamlSyntax.At(
                comment,
                $"`#` begins a comment here, so that the `{source.Text[outermost]}` before it is not closed",
                "put the value that contains `#` in quotes; if this is a comment, write it behind the closing bracket")
            : null;
    }

    // A dash or a key with its value directly behind it, at the beginning of a line, is a part of a text to YAML.
    private static Diagnostic? MissingSpace(SourceSpan span)
    {
        var text = span.Source.Text;
        var start = Math.Min(span.Start, text.Length);
        var line = start == 0 ? 0 : text.LastIndexOf('\n', start - 1) + 1;
        var rest = text.AsSpan(line);
        if (rest.IndexOfAny('\r', '\n') is >= 0 and var end) rest = rest[..end];
        var at = rest.Length - rest.TrimStart(' ').Length;
        rest = rest[at..];
        if (rest.StartsWith("-") && !rest.StartsWith("--") && rest.Length > 1 && rest[1] is not (' ' or '\t'))
        {
            return DiagnosticDescriptors.DashMissing.At(
                new SourceSpan(span.Source, line + at, 1), "there is no space after this `-`", "write a space after the `-` of each item");
        }

        var dash = rest.StartsWith("- ") ? 2 : 0;
        rest = rest[dash..];
        at += dash;
        var key = rest.IndexOfAnyExcept(KeyLetters);
        return key <= 0 || rest[key] != ':' || key + 1 >= rest.Length || char.IsWhiteSpace(rest[key + 1]) || rest[key + 1] == '/'
            ? null
            : DiagnosticDescriptors.YamlSyntax.At(
                new SourceSpan(span.Source, line + at + key, 1),
                "there is no space after this `:`",
                $"write `{rest[..key]}: {Quotation.Shorten(rest[(key + 1)..].ToString())}`");
    }

    // A value that begins with a quote or a bracket ends with the next; what is behind it on its line is lost to it.
    private static Diagnostic? Ended(SourceSpan span)
    {
        var text = span.Source.Text;
        var line = span.Start == 0 ? 0 : text.LastIndexOf('\n', span.Start - 1) + 1;
        var before = text.AsSpan(line, span.Start - line).TrimEnd();
        var value = before.IndexOf(": ", StringComparison.Ordinal) is >= 0 and var colon
            ? colon + 2
            : before.Length - before.TrimStart("- ").Length;
        while (value < before.Length && before[value] == ' ') value++;
        if (value + 1 >= before.Length) return null;
        var start = new SourceSpan(span.Source, line + value, 1);
        return (before[value], before[^1]) switch
        {
            ('[', ']') or ('{', '}') => DiagnosticDescriptors.YamlSyntax.At(
                start,
                $"a value that starts with `{before[value]}` is a {(before[value] == '[' ? "list" : "mapping")}, but there is more text after its end",
                "put quotes around the whole text"),
            ('\'', '\'') => DiagnosticDescriptors.YamlSyntax.At(
                span, "this comes after the end of quoted text", "double a `'` inside the text, or put the text in double quotes"),
            ('"', '"') => DiagnosticDescriptors.YamlSyntax.At(
                span,
                "this comes after the end of quoted text",
                "write a `\"` inside the text as `\\\"`, or put the text in single quotes"),
            _ => null,
        };
    }

    private static SourceSpan SpanOf(YamlException exception, SourceSpan read)
    {
        var source = read.Source;
        var (offset, length) = (read.Start, source.Text.Length);
        var start = Math.Min(offset + (int)exception.Start.Index, length);
        var end = Math.Clamp(offset + (int)exception.End.Index, start, length);

        // Of an escape the parser says the whole text up to it.
        if (exception.Message.Contains("escape", StringComparison.Ordinal)
            || exception.Message.Contains("decimal number", StringComparison.Ordinal))
        {
            var slash = source.Text.LastIndexOf('\\', Math.Min(end, length - 1), Math.Min(end, length - 1) - start + 1);
            if (slash >= 0) return new SourceSpan(source, slash, Math.Min(2, length - slash));
        }

        // The end of one line is where the eye goes; the parser's span may run to the end of the file.
        var line = source.Text.AsSpan(start, end - start).IndexOfAny('\r', '\n');
        return new SourceSpan(source, start, line >= 0 ? line : end - start);
    }

    private static SourceSpan? TabAfter(SourceText source, int seen)
    {
        var text = source.Text;
        for (var line = seen == 0 ? 0 : text.LastIndexOf('\n', seen - 1) + 1; line < text.Length; line++)
        {
            var at = line;
            while (at < text.Length && text[at] == ' ') at++;
            if (at < text.Length && text[at] == '\t') return new SourceSpan(source, at, 1);
            line = text.IndexOf('\n', at);
            if (line < 0) break;
        }

        return null;
    }
}
