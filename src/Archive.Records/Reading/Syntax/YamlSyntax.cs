using System.Collections.Immutable;
using System.Runtime.InteropServices;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace Archive.Records.Reading.Syntax;

/// <summary>Reads YAML one record at a time: the root of each document, or each item where the root is a list.</summary>
/// <remarks>
/// Nothing is resolved but text: what a value means is for the record's reader to say. Aliases, anchors, tags, deep nesting and
/// very long values are refused. After a syntax error reading goes on at the next record that begins at the start of a line.
/// </remarks>
internal sealed class YamlSyntax
{
    /// <summary>Levels of nesting that are read; the parser's own time grows with the square of the depth.</summary>
    public const int DeepestNesting = 64;

    /// <summary>Longest value, in UTF-16 units.</summary>
    public const int LongestScalar = 1 << 20;

    /// <summary>Most values in one record.</summary>
    public const int LargestRecord = 200_000;

    private const int FewKeys = 32;

    private readonly SourceText _source;
    private readonly int _end;
    private readonly DiagnosticBag _diagnostics;
    private readonly YamlCharacters _letters;
    private readonly Stack<SourceSpan> _open = new();

    // What was read of the lists and mappings that are still open, the innermost last.
    private readonly List<SyntaxNode> _items = [];
    private readonly List<MappingEntry> _entries = [];
    private Parser _parser;
    private int _base;
    private int _seen;
    private int _values;
    private bool _isAtEnd;
    private bool _isInList;

    // What begins an item of the list at the root: `- `, behind as many spaces as its first item; null where the root is no such list.
    private string? _item;

    /// <summary>Begins to read.</summary>
    /// <param name="span">The stretch of a file that is YAML.</param>
    /// <param name="diagnostics">Collects the diagnostics.</param>
    public YamlSyntax(SourceSpan span, DiagnosticBag diagnostics)
    {
        _source = span.Source;
        _end = span.End;
        _diagnostics = diagnostics;
        _letters = YamlCharacters.From(span, diagnostics);
        _base = _seen = span.Start;
        _parser = Begin();
    }

    /// <summary>Reads a stretch of a file.</summary>
    /// <param name="span">The stretch: the whole file, or some items of the list at its root.</param>
    /// <param name="diagnostics">Collects the diagnostics.</param>
    public static IEnumerable<SyntaxNode> Records(SourceSpan span, DiagnosticBag diagnostics)
    {
        var syntax = new YamlSyntax(span, diagnostics);
        while (syntax.Next() is { } node) yield return node;
    }

    /// <summary>Whether the last record is an item of a list at the root.</summary>
    public bool IsInList => _isInList;

    /// <summary>The next record, or null at the end.</summary>
    public SyntaxNode? Next()
    {
        while (!_isAtEnd && !_diagnostics.IsFull)
        {
            try
            {
                if (NextNode() is { } node) return node;
                _isAtEnd = true;
            }
            catch (YamlException exception)
            {
                GoOnAfter(YamlDiagnostics.From(exception, new SourceSpan(_source, _base, _end - _base), _seen, _open));
            }
            catch (ArgumentException)
            {
                // The parser makes an address of a tag without asking whether it can be one.
                GoOnAfter(YamlDiagnostics.NoTag(_source, _seen));
            }
            catch (InvalidOperationException)
            {
                GoOnAfter(YamlDiagnostics.Unclosed(_source, _seen, _open));
            }
        }

        return null;
    }

    private SyntaxNode? NextNode()
    {
        _open.Clear();
        _items.Clear();
        _entries.Clear();
        _values = 0;
        while (_parser.MoveNext())
        {
            switch (_parser.Current)
            {
                case SequenceStart start when !_isInList:
                    YamlRestrictions.Tell(start, SpanOf(start), _diagnostics);
                    _isInList = true;
                    _item = start.Style == SequenceStyle.Block ? "- ".PadLeft((int)start.Start.Column + 1) : null;
                    break;
                case DocumentStart or SequenceEnd:
                    _isInList = false;
                    _item = null;
                    break;
                case StreamStart or StreamEnd or DocumentEnd:
                    break;
                case Scalar { Value: "", Style: ScalarStyle.Plain } when !_isInList:
                    break;
                default:
                    return Read(1);
            }
        }

        return null;
    }

    private SyntaxNode Read(int depth)
    {
        if (++_values > LargestRecord) throw new TooLargeException(_parser.Current!.Start, _parser.Current.End);
        switch (_parser.Current)
        {
            case AnchorAlias alias:
                return YamlRestrictions.Alias(alias, SpanOf(alias), _diagnostics);
            case Scalar scalar:
                return ReadScalar(scalar);
            case SequenceStart start:
                Descend(start, depth);
                return ReadList(start, depth);
            case MappingStart start:
                Descend(start, depth);
                return ReadMapping(start, depth);
            default:
                throw new YamlException(_parser.Current!.Start, _parser.Current.End, "did not find expected node content");
        }
    }

    private void Descend(NodeEvent start, int depth)
    {
        var span = SpanOf(start);
        YamlRestrictions.Tell(start, span, _diagnostics);
        if (depth > DeepestNesting) throw new TooDeepException(start.Start, start.End);
        _open.Push(span);
    }

    private ScalarNode? AsKey(SyntaxNode node)
    {
        if (node is ScalarNode key) return key;
        if (node is not RejectedNode) _diagnostics.Add(
            DiagnosticDescriptors.WrongType.At(node.Span, $"there is {node.Noun} where a key should be", "write the key as a word"));
        return null;
    }

    private SyntaxNode ReadScalar(Scalar scalar)
    {
        var whole = SpanOf(scalar);
        YamlRestrictions.Tell(scalar, whole, _diagnostics);
        var span = Trimmed(whole);
        if (scalar.Value.Length > LongestScalar) return YamlRestrictions.TooLong(scalar, span, _diagnostics);

        // Of a control character it was reported already; an escape for one in quotes is meant.
        return _source.Text.AsSpan(span.Start, span.Length).ContainsAny(YamlCharacters.Controls)
            ? new RejectedNode(span)
            : new ScalarNode(span, _letters.Restore(scalar.Value), FormOf(scalar.Style));
    }

    private static ScalarNotation FormOf(ScalarStyle style) => style switch
    {
        ScalarStyle.Plain => ScalarNotation.Plain,
        ScalarStyle.SingleQuoted or ScalarStyle.DoubleQuoted => ScalarNotation.Quoted,
        _ => ScalarNotation.Block,
    };

    private ListNode ReadList(SequenceStart start, int depth)
    {
        var from = OffsetOf(start.Start);
        var first = _items.Count;
        while (_parser.MoveNext() && _parser.Current is not SequenceEnd) _items.Add(Read(depth + 1));
        _open.Pop();
        var items = TakeFrom(_items, first);
        var last = items.Length > 0 ? items[^1].Span.End : from + 1;
        return new ListNode(Closed(from, last, start.Style == SequenceStyle.Flow ? ']' : '\0'), items);
    }

    private MappingNode ReadMapping(MappingStart start, int depth)
    {
        var from = OffsetOf(start.Start);
        var first = _entries.Count;
        Dictionary<string, ScalarNode>? keys = null;
        var last = from;
        var isNextItem = false;
        while (_parser.MoveNext() && _parser.Current is not MappingEnd)
        {
            var key = Read(depth + 1);
            _parser.MoveNext();
            var value = Read(depth + 1);
            last = Math.Max(key.Span.End, value.Span.End);
            if (start.Style == MappingStyle.Flow && _entries.Count > first && DecimalComma.Joined(_entries[^1], key, value) is { } whole)
            {
                _diagnostics.Add(DecimalComma.Report(whole));
                _entries[^1] = _entries[^1] with { Value = new RejectedNode(whole) };
            }
            else if (isNextItem || (start.Style == MappingStyle.Block && IsNextItem(key, first)))
            {
                // What follows belongs to another record, so none of it is read as this one's.
                if (!isNextItem) _diagnostics.Add(DashMissing((ScalarNode)key, _entries[first].Key));
                isNextItem = true;
            }
            else if (AsKey(key) is { } word && !IsTwice(word, first, ref keys))
            {
                _entries.Add(new MappingEntry(word, value));
            }
        }

        _open.Pop();
        var entries = TakeFrom(_entries, first);
        var isBraced = start.Style == MappingStyle.Flow && from < _end && _source.Text[from] == '{';

        // The mark of an unbraced pair within a list, `[a: b]`, is anywhere; its key says where it begins.
        if (start.Style == MappingStyle.Flow && !isBraced && entries.Length > 0) from = entries[0].Key.Span.Start;
        return new MappingNode(Closed(from, Math.Max(last, from), isBraced ? '}' : '\0'), entries);
    }

    // The first key of a record comes again behind others: another record begins, without its dash.
    private bool IsNextItem(SyntaxNode key, int first) =>
        _entries.Count > first + 1 && key is ScalarNode { Text: var name } && name == _entries[first].Key.Text;

    private static Diagnostic DashMissing(ScalarNode key, ScalarNode first) => DiagnosticDescriptors.DashMissing.At(
        key.Span,
        $"`{key.Short}` comes a second time, as if another item of a list began here without `- `",
        $"begin each item with `- ` before its `{key.Short}`, and align its other keys with it; if it is one item, remove one of the two",
        new Related(first.Span, "first written here"));

    private static ImmutableArray<T> TakeFrom<T>(List<T> open, int first)
    {
        var taken = ImmutableArray.Create(CollectionsMarshal.AsSpan(open)[first..]);
        open.RemoveRange(first, open.Count - first);
        return taken;
    }

    private bool IsTwice(ScalarNode key, int from, ref Dictionary<string, ScalarNode>? keys)
    {
        if (First(key.Text, CollectionsMarshal.AsSpan(_entries)[from..], ref keys) is { } first)
        {
            _diagnostics.Add(DiagnosticDescriptors.DuplicateKey.At(
                key.Span, $"key `{key.Short}` is given twice", "remove one of the two", new Related(first.Span, "first written here")));
            return true;
        }

        keys?.Add(key.Text, key);
        return false;
    }

    // Looked through while they are few, by a dictionary when they are many.
    private static ScalarNode? First(string key, ReadOnlySpan<MappingEntry> entries, ref Dictionary<string, ScalarNode>? keys)
    {
        if (entries.Length > FewKeys && keys is null)
        {
            keys = new(StringComparer.Ordinal);
            foreach (var entry in entries) keys.Add(entry.Key.Text, entry.Key);
        }

        if (keys is not null) return keys.GetValueOrDefault(key);
        foreach (var entry in entries)
        {
            if (entry.Key.Text == key) return entry.Key;
        }

        return null;
    }

    private void GoOnAfter(Diagnostic diagnostic)
    {
        _diagnostics.Add(diagnostic);
        var kind = diagnostic.Descriptor;
        _isAtEnd = (kind != DiagnosticDescriptors.YamlSyntax && kind != DiagnosticDescriptors.DashMissing)
            || NextStart(Math.Max(diagnostic.Span.Start, _seen)) is not { } next
            || Restart(next);
    }

    private bool Restart(int offset)
    {
        _base = _seen = offset;
        _isInList = false;
        _item = null;
        _parser = Begin();
        return false;
    }

    // The next line that begins a record: a document, or where the root is a list an item of it. Elsewhere `- ` may begin an item of
    // anything.
    private int? NextStart(int offset)
    {
        var text = _source.Text;
        for (var at = text.IndexOf('\n', offset, _end - offset) + 1; at > 0 && at < _end; at = text.IndexOf('\n', at, _end - at) + 1)
        {
            var line = text.AsSpan(at, _end - at);
            if ((_item is not null && line.StartsWith(_item, StringComparison.Ordinal))
                || line.StartsWith("---", StringComparison.Ordinal)) return at;
        }

        return null;
    }

    private Parser Begin() => new(new Scanner(_letters.Reader(_base), skipComments: true));

    private int OffsetOf(Mark mark) => Math.Min(_base + (int)mark.Index, _end);

    private SourceSpan SpanOf(ParsingEvent happening)
    {
        var start = OffsetOf(happening.Start);
        _seen = Math.Max(_seen, start);
        return new SourceSpan(_source, start, Math.Max(0, OffsetOf(happening.End) - start));
    }

    // A block text's mark runs on to the next token.
    private static SourceSpan Trimmed(SourceSpan span)
    {
        var length = span.Length;
        while (length > 0 && span.Source.Text[span.Start + length - 1] is ' ' or '\t' or '\n' or '\r') length--;
        return span with { Length = length };
    }

    // The end mark of a collection lies on whatever follows; between the last child and the bracket stand only blanks, commas, comments.
    private SourceSpan Closed(int from, int last, char bracket)
    {
        var text = _source.Text;
        var at = last;
        while (bracket != '\0' && at < _end && text[at] != bracket)
        {
            at = text[at] == '#' ? text.IndexOf('\n', at, _end - at) : at + 1;
            if (at < 0) at = _end;
        }

        return new SourceSpan(_source, from, (bracket != '\0' && at < _end ? at + 1 : last) - from);
    }
}

/// <summary>A record beyond what is read: the rest of the file is not.</summary>
internal sealed class TooLargeException(in Mark start, in Mark end) : YamlException(start, end, "too large");

/// <summary>Nesting beyond what is read: the rest of the file is not.</summary>
internal sealed class TooDeepException(in Mark start, in Mark end) : YamlException(start, end, "too deep");
