using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Reading.Syntax;

namespace Archive.Records.Reading.Values;

/// <summary>
/// Reads one mapping by its declared keys. What is not declared is unknown, and what is required and missing is missing: <see cref="End"/>
/// reports both. Everything that is wrong is reported once, at the smallest span; what is wrong reads as absent.
/// </summary>
/// <param name="format">Its keys, and what it describes.</param>
/// <param name="diagnostics">Collects the diagnostics.</param>
/// <param name="subject">What it describes, if that is not what the format says.</param>
internal sealed class MappingReader(MappingNode node, MappingFormat format, DiagnosticBag diagnostics, string? subject = null)
{
    private const int Few = 32;

    private readonly MappingNode _node = node;
    private readonly DiagnosticBag _diagnostics = diagnostics;
    private readonly bool[] _isRead = new bool[node.Entries.Length];
    private Dictionary<string, int>? _places;

    /// <summary>What the mapping describes.</summary>
    public string Subject => subject ?? format.Noun;

    /// <summary>Where the mapping stands.</summary>
    public SourceSpan Span => _node.Span;

    /// <summary>Collects the diagnostics.</summary>
    public DiagnosticBag Diagnostics => _diagnostics;

    /// <summary>Where a key that is missing is reported: at the id, else at the first key, else at the bracket.</summary>
    public SourceSpan Start
    {
        get
        {
            foreach (var entry in _node.Entries)
            {
                if (entry is { Key.Text: "id", Value: ScalarNode { IsEmpty: false } id }) return id.Span;
            }

            return _node.Entries.Length > 0 && _node.Entries[0].Key.Span.Start == Span.Start
                ? _node.Entries[0].Key.Span
                : Span.Slice(0, Math.Min(1, Span.Length));
        }
    }

    /// <summary>The entry of a key.</summary>
    /// <returns>The entry; null where it is absent, says nothing (which is reported), or was refused (which was reported).</returns>
    public MappingEntry? Entry(string key)
    {
        if (IndexOf(key) is not (>= 0 and var i)) return null;
        var (entry, wasRead) = (_node.Entries[i], _isRead[i]);
        _isRead[i] = true;
        if (entry.Value is RejectedNode) return null;
        if (entry.Value is not ScalarNode { IsEmpty: true }) return entry;
        if (!wasRead)
        {
            var span = entry.Value.Span.Length > 0 ? entry.Value.Span : entry.Key.Span;
            _diagnostics.Add(DiagnosticDescriptors.WrongType.At(
                span,
                $"`{Quotation.Shorten(key)}` has no value",
                entry.Value is ScalarNode empty && CommentInValue.Find(empty, Exactness.Loose) is { } comment
                    ? CommentInValue.QuoteAll(comment)
                    : "give it a value, or leave the key out"));
        }

        return null;
    }

    /// <summary>Whether a key stands here, whatever it says.</summary>
    public bool Has(string key) => IndexOf(key) >= 0;

    /// <summary>Whether a key is one of those declared, with the same meaning.</summary>
    public bool Declares(FormatKey key) => ReferenceEquals(format.Find(key.Name), key);

    /// <summary>Whether a key is missing, and stands here misspelt: that is reported, and what only follows from it is not.</summary>
    public bool Misspells(FormatKey key) =>
        !Has(key.Name)
        && _node.Entries.Any(entry => format.Find(entry.Key.Text) is null && NearestName.Find(entry.Key.Text, [key.Name]) is not null);

    /// <inheritdoc cref="Entry(string)"/>
    public MappingEntry? Entry(FormatKey key) => Entry(key.Name);

    /// <summary>A fact, stated bare or as <c>{is: …, from: …, by: …, on: …, note: …}</c>.</summary>
    /// <typeparam name="T">What is stated.</typeparam>
    public Stated<T>? Read<T>(FactKey<T> key) => Entry(key) switch
    {
        { Value: MappingNode mapping } => EvidenceReader.Read(
            new MappingReader(mapping, EvidenceFormat.All, _diagnostics, $"`{key.Name}`"), key.Name, key.Value),
        { } entry => Single(entry.Value, key.Name, key.Value),
        null => null,
    };

    /// <summary>A value that is stated bare only.</summary>
    /// <typeparam name="T">What is stated.</typeparam>
    public Stated<T>? Read<T>(SingleKey<T> key) => Single(key.Name, key.Value);

    /// <inheritdoc cref="Read{T}(SingleKey{T})"/>
    public Stated<T>? Single<T>(string key, ValueFormat<T> value) =>
        Entry(key) is { } entry ? Single(entry.Value, key, value) : null;

    /// <summary>A list of single values.</summary>
    /// <typeparam name="T">What each is.</typeparam>
    public ImmutableArray<Stated<T>> Read<T>(ListKey<T> key) => List(key.Name, key.Value, key.OneWillDo);

    /// <summary>A list of single values.</summary>
    /// <typeparam name="T">What each is.</typeparam>
    /// <param name="oneWillDo">Whether a single value may stand for a list of one.</param>
    public ImmutableArray<Stated<T>> List<T>(string key, ValueFormat<T> value, bool oneWillDo)
    {
        if (Items(key, oneWillDo) is not { Length: > 0 } items) return [];
        var list = ImmutableArray.CreateBuilder<Stated<T>>(items.Length);
        foreach (var item in items)
        {
            if (Single(item, key, value) is { } one) list.Add(one);
        }

        return list.DrainToImmutable();
    }

    /// <summary>The mappings of a list; each is ended when the next is asked for.</summary>
    public IEnumerable<MappingReader> Each(MappingsKey key)
    {
        foreach (var item in Items(key.Name, key.OneWillDo))
        {
            if (AsMapping(item, key.Name, key.Mapping) is not { } mapping) continue;
            yield return mapping;
            mapping.End();
        }
    }

    /// <summary>A mapping, which the caller ends.</summary>
    public MappingReader? Mapping(MappingKey key) => Mapping(key.Name, key.Mapping);

    /// <inheritdoc cref="Mapping(MappingKey)"/>
    public MappingReader? Mapping(string key, MappingFormat keys) =>
        Entry(key) is { } entry ? AsMapping(entry.Value, key, keys) : null;

    /// <summary>A mapping whose keys the record chooses; it is not ended.</summary>
    public MappingReader? Table(string key) => Mapping(key, EvidenceFormat.None);

    /// <summary>The items of a list, unread; empty where it is absent or no list (which is reported).</summary>
    /// <param name="oneWillDo">Whether anything else stands for a list of one.</param>
    public ImmutableArray<SyntaxNode> Items(string key, bool oneWillDo = false)
    {
        if (Entry(key) is not { } entry) return [];
        if (entry.Value is ListNode list) return list.Items;
        if (entry.Value is ScalarNode { Form: ScalarNotation.Plain, Text: ['-', not ' ', ..] } dashed)
        {
            _diagnostics.Add(DiagnosticDescriptors.DashMissing.At(
                dashed.Span.Slice(0, 1),
                $"`{Quotation.Shorten(key)}` expects a list, but there is no space after `-`",
                "write a space after the `-` of each item"));
            return [];
        }

        if (oneWillDo) return [entry.Value];
        _diagnostics.Add(DiagnosticDescriptors.WrongType.At(
            PointAt(entry.Value), $"`{Quotation.Shorten(key)}` expects a list, but this is {entry.Value.Noun}", AsList(key, entry.Value)));
        return [];
    }

    /// <summary>The keys of a mapping whose keys the record chooses; each is still to be asked for.</summary>
    public IEnumerable<ScalarNode> Keys => _node.Entries.Select(entry => entry.Key);

    /// <summary>A single value, or null where it is none (which is reported).</summary>
    /// <typeparam name="T">What it becomes.</typeparam>
    /// <param name="key">The key it belongs to.</param>
    /// <param name="value">What it can be.</param>
    public Stated<T>? Single<T>(SyntaxNode node, string key, ValueFormat<T> value)
    {
        switch (node)
        {
            case RejectedNode:
                return null;
            case ScalarNode { IsEmpty: true } empty:
                _diagnostics.Add(DiagnosticDescriptors.WrongType.At(
                    node.Span,
                    $"an item of `{Quotation.Shorten(key)}` has no value",
                    CommentInValue.Find(empty, Exactness.Loose) is { } comment
                        ? CommentInValue.QuoteAll(comment)
                        : "give it a value, or leave it out"));
                return null;
            case ScalarNode scalar:
                if (CommentInValue.Find(scalar, value.Exactness) is { } cut)
                {
                    _diagnostics.Add(CommentInValue.Report(scalar, cut, key, value.Exactness));
                    if (value.Exactness != Exactness.Loose) return null;
                }

                if (TypographicQuotes.Around(scalar) is { } quotes) _diagnostics.Add(quotes);
                return value.Read(new WrittenValue(scalar, key, _diagnostics), out var said) ? new Stated<T>(said, scalar.Span) : null;
            default:
                _diagnostics.Add(DiagnosticDescriptors.WrongType.At(
                    PointAt(node), $"`{Quotation.Shorten(key)}` expects a single value, but this is {node.Noun}", "write one value"));
                return null;
        }
    }

    /// <summary>A mapping to read, or null where it is none (which is reported).</summary>
    /// <param name="key">The key it belongs to.</param>
    /// <param name="keys">Its keys.</param>
    public MappingReader? AsMapping(SyntaxNode node, string key, MappingFormat keys)
    {
        if (node is MappingNode mapping) return new MappingReader(mapping, keys, _diagnostics);
        if (node is not RejectedNode)
        {
            _diagnostics.Add(DiagnosticDescriptors.WrongType.At(
                PointAt(node),
                $"`{Quotation.Shorten(key)}` expects a mapping of keys to values, but this is {node.Noun}",
                node is ScalarNode { Form: not ScalarNotation.Block } one && keys.Keys is [{ Node: SingleFormat or FactFormat } first, ..]
                    ? $"write `{{{first.Name}: {Quotation.Shorten(one.Span.Text)}}}`"
                    : "write `{key: value}`, or one `key: value` per line"));
        }

        return null;
    }

    /// <summary>Reports unknown keys, and required ones that are missing or empty; one may be misspelt.</summary>
    /// <param name="isWithdrawn">Whether it is a record that was withdrawn: then nothing but the id is required.</param>
    public void End(bool isWithdrawn = false)
    {
        List<string>? misspelt = null;
        foreach (var (key, value) in _node.Entries)
        {
            if (_diagnostics.IsFull || format.Find(key.Text) is not null) continue;
            if (key.Text == "<<" && value is RejectedNode) continue; // The alias that it merges was reported.
            var nearest = NearestName.Find(key.Text, format.Keys.Select(known => known.Name));
            if (nearest is not null) (misspelt ??= []).Add(nearest);
            var asRecord = nearest is null ? AsRecord(key, value) : null;
            if (asRecord is not null) (misspelt ??= []).AddRange(value is ScalarNode ? ["id"] : format.Keys.Select(known => known.Name));
            _diagnostics.Add(DiagnosticDescriptors.UnknownKey.At(
                key.Span,
                $"unknown key `{key.Short}` in this {Subject}",
                nearest is not null
                    ? $"did you mean `{nearest}`?"
                    : asRecord ?? $"known keys: {string.Join(", ", format.Keys.Select(known => known.Name))}"));
        }

        foreach (var key in format.Keys)
        {
            if (!key.IsRequired || (isWithdrawn && key.Name != "id")) continue;
            if (Has(key.Name))
            {
                if (Entry(key) is { Value: ListNode { Items: [] } list })
                {
                    _diagnostics.Add(DiagnosticDescriptors.MissingKey.At(
                        list.Span, $"`{key.Name}` of this {Subject} is empty", "list at least one"));
                }

            }
            else if (misspelt?.Contains(key.Name) != true)
            {
                _diagnostics.Add(DiagnosticDescriptors.MissingKey.At(Start, $"this {Subject} has no `{key.Name}`", $"add `{key.Name}: …`"));
            }
        }
    }

    // Records under their ids, or under the name of their folder, where they are to be the items of a list.
    private string? AsRecord(ScalarNode key, SyntaxNode value) => format.Find("id") is null || Has("id") ? null : value switch
    {
        MappingNode => $"write `- id: {key.Short}`, and the keys of this {Subject} below it",
        ScalarNode when key == _node.Entries[0].Key && key.Text.Any(char.IsAsciiDigit) =>
            $"write `id: {key.Short}`, and what is behind it under a key of its own: {string.Join(", ", format.Keys.Select(known => known.Name).Where(name => name != "id"))}",
        ListNode { Items: [MappingNode, ..] } => $"leave out `{key.Short}:`, and begin each {Subject} with `- id: …`",
        _ => null,
    };

    // How what was written becomes a list.
    private static string AsList(string key, SyntaxNode written) => written switch
    {
        ScalarNode { Form: not ScalarNotation.Block } one when one.Short == one.Text && !one.Text.All(char.IsAsciiDigit) =>
            $"write `{Quotation.Shorten(key)}: [{one.Span.Text}]`, or one item per line after `- `",
        MappingNode when written.Span.Text.StartsWith('{') => $"put it in brackets: `{Quotation.Shorten(key)}: [{{ … }}]`",
        MappingNode => "begin each item with `- `, and align its other keys with its first",
        _ => $"write `{Quotation.Shorten(key)}: [ … ]`, or one item per line after `- `",
    };

    // Records have few keys; only people, tables and examples may have many.
    private int IndexOf(string key)
    {
        var entries = _node.Entries;
        if (entries.Length <= Few)
        {
            for (var i = 0; i < entries.Length; i++)
            {
                if (entries[i].Key.Text == key) return i;
            }

            return -1;
        }

        _places ??= Enumerable.Range(0, entries.Length).ToDictionary(i => entries[i].Key.Text, StringComparer.Ordinal);
        return _places.GetValueOrDefault(key, -1);
    }

    // A collection is pointed at by its first character: its whole stretch would underline half a record.
    private static SourceSpan PointAt(SyntaxNode node) =>
        node is ScalarNode ? node.Span : node.Span.Slice(0, Math.Min(1, node.Span.Length));
}
