using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Reading.Syntax;

namespace Archive.Records.Reading.Values;

/// <summary>
/// Reads one mapping key by key. Asking for a key makes it known; what was never asked for is unknown, and reported by <see cref="End"/>.
/// Everything that is wrong is reported once, at the smallest span; what is wrong reads as absent.
/// </summary>
internal sealed class MappingReader
{
    private const int Few = 32;

    private readonly MappingNode _node;
    private readonly DiagnosticBag _told;
    private readonly List<string> _asked;
    private readonly bool[] _isKnown;
    private Dictionary<string, int>? _places;
    private List<string>? _missing;

    /// <summary>Begins to read a mapping.</summary>
    /// <param name="subject">What it describes, for sentences: <c>frame</c>, <c>position</c>.</param>
    /// <param name="told">Collects the diagnostics.</param>
    public MappingReader(MappingNode node, string subject, DiagnosticBag told)
    {
        _node = node;
        _told = told;
        _asked = told.LendList();
        _isKnown = new bool[node.Entries.Length];
        Subject = subject;
    }

    /// <summary>What the mapping describes.</summary>
    public string Subject { get; }

    /// <summary>Where the mapping stands.</summary>
    public SourceSpan Span => _node.Span;

    /// <summary>Collects the diagnostics.</summary>
    public DiagnosticBag Diagnostics => _told;

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

    /// <summary>The entry of a key; asking makes the key known.</summary>
    /// <returns>The entry; null where it is absent, says nothing (which is reported), or was refused (which was reported).</returns>
    public MappingEntry? Entry(string key)
    {
        _asked.Add(key);
        if (IndexOf(key) is not (>= 0 and var i)) return null;
        var (entry, wasKnown) = (_node.Entries[i], _isKnown[i]);
        _isKnown[i] = true;
        if (entry.Value is RejectedNode) return null;
        if (entry.Value is not ScalarNode { IsEmpty: true }) return entry;
        if (!wasKnown)
        {
            var span = entry.Value.Span.Length > 0 ? entry.Value.Span : entry.Key.Span;
            _told.Add(DiagnosticDescriptors.WrongType.At(
                span, $"`{Quotation.Shorten(key)}` has no value", "give it a value, or leave the key out"));
        }

        return null;
    }

    /// <summary>Whether a key stands here, whatever it says.</summary>
    public bool Has(string key) => IndexOf(key) >= 0;

    /// <summary>Whether a key is missing, and stands here misspelt: that is reported, and what only follows from it is not.</summary>
    public bool Misspells(string key) =>
        !Has(key) && _node.Entries.Where((_, i) => !_isKnown[i]).Any(entry => NearestName.Find(entry.Key.Text, [key]) is not null);

    /// <summary>
    /// Tells keys that must be there and are not; those that are missing when the mapping is ended, for one may stand misspelt.
    /// </summary>
    /// <param name="keys">The keys, which were asked for.</param>
    public void Require(params ReadOnlySpan<string> keys)
    {
        foreach (var key in keys)
        {
            if (!Has(key)) (_missing ??= []).Add(key);
            else if (Entry(key) is { Value: ListNode { Items: [] } list })
                _told.Add(DiagnosticDescriptors.MissingKey.At(list.Span, $"`{key}` of this {Subject} is empty", "list at least one"));
        }
    }

    /// <summary>A fact, stated bare or as <c>{is: …, from: …, by: …, on: …, note: …}</c>.</summary>
    /// <typeparam name="T">What is stated.</typeparam>
    public Stated<T>? Fact<T>(string key, ReadValue<T> read) => Entry(key) switch
    {
        { Value: MappingNode mapping } => EvidenceReader.Read(new MappingReader(mapping, $"`{key}`", _told), key, read),
        { } entry => Single(entry.Value, key, read),
        null => null,
    };

    /// <summary>A value that is stated bare only.</summary>
    /// <typeparam name="T">What is stated.</typeparam>
    public Stated<T>? Bare<T>(string key, ReadValue<T> read) => Entry(key) is { } entry ? Single(entry.Value, key, read) : null;

    /// <summary>A list of single values.</summary>
    /// <typeparam name="T">What each is.</typeparam>
    /// <param name="oneWillDo">Whether a single value may stand for a list of one.</param>
    public ImmutableArray<Stated<T>> List<T>(string key, ReadValue<T> read, bool oneWillDo = false)
    {
        if (Items(key, oneWillDo) is not { Length: > 0 } items) return [];
        var list = ImmutableArray.CreateBuilder<Stated<T>>(items.Length);
        foreach (var item in items)
        {
            if (Single(item, key, read) is { } value) list.Add(value);
        }

        return list.DrainToImmutable();
    }

    /// <summary>The mappings of a list; each is ended when the next is asked for.</summary>
    /// <param name="subject">What each describes.</param>
    /// <param name="oneWillDo">Whether a single mapping may stand for a list of one.</param>
    public IEnumerable<MappingReader> Each(string key, string subject, bool oneWillDo = false)
    {
        foreach (var item in Items(key, oneWillDo))
        {
            if (AsMapping(item, key, subject) is not { } mapping) continue;
            yield return mapping;
            mapping.End();
        }
    }

    /// <summary>A mapping, which the caller ends.</summary>
    /// <param name="subject">What it describes.</param>
    public MappingReader? Mapping(string key, string subject) => Entry(key) is { } entry ? AsMapping(entry.Value, key, subject) : null;

    /// <summary>The items of a list, unread; empty where it is absent or no list (which is reported).</summary>
    /// <param name="oneWillDo">Whether anything else stands for a list of one.</param>
    public ImmutableArray<SyntaxNode> Items(string key, bool oneWillDo = false)
    {
        if (Entry(key) is not { } entry) return [];
        if (entry.Value is ListNode list) return list.Items;
        if (oneWillDo) return [entry.Value];
        _told.Add(DiagnosticDescriptors.WrongType.At(
            PointAt(entry.Value),
            $"`{Quotation.Shorten(key)}` expects a list, but this is {entry.Value.Noun}",
            $"write `{Quotation.Shorten(key)}: [ … ]`, or one item per line after `- `"));
        return [];
    }

    /// <summary>The keys of a mapping whose keys the record chooses; each is still to be asked for.</summary>
    public IEnumerable<ScalarNode> Keys => _node.Entries.Select(entry => entry.Key);

    /// <summary>A single value, or null where it is none (which is reported).</summary>
    /// <typeparam name="T">What it becomes.</typeparam>
    /// <param name="key">The key it belongs to.</param>
    public Stated<T>? Single<T>(SyntaxNode node, string key, ReadValue<T> read)
    {
        switch (node)
        {
            case RejectedNode:
                return null;
            case ScalarNode { IsEmpty: true }:
                _told.Add(DiagnosticDescriptors.WrongType.At(
                    node.Span, $"an item of `{Quotation.Shorten(key)}` has no value", "give it a value, or leave it out"));
                return null;
            case ScalarNode scalar:
                return read(new WrittenValue(scalar, key, _told), out var value) ? new Stated<T>(value, scalar.Span) : null;
            default:
                _told.Add(DiagnosticDescriptors.WrongType.At(
                    PointAt(node), $"`{Quotation.Shorten(key)}` expects a single value, but this is {node.Noun}", "write one value"));
                return null;
        }
    }

    /// <summary>A mapping to read, or null where it is none (which is reported).</summary>
    /// <param name="key">The key it belongs to.</param>
    /// <param name="subject">What it describes.</param>
    public MappingReader? AsMapping(SyntaxNode node, string key, string subject)
    {
        if (node is MappingNode mapping) return new MappingReader(mapping, subject, _told);
        if (node is not RejectedNode)
        {
            _told.Add(DiagnosticDescriptors.WrongType.At(
                PointAt(node),
                $"`{Quotation.Shorten(key)}` expects a mapping of keys to values, but this is {node.Noun}",
                "write `{key: value}`, or one `key: value` per line"));
        }

        return null;
    }

    /// <summary>Reports the keys that no one asked for; nothing more is asked then.</summary>
    public void End()
    {
        for (var i = 0; i < _isKnown.Length; i++)
        {
            if (_isKnown[i] || _told.IsFull) continue;
            var (key, value) = _node.Entries[i];
            if (key.Text == "<<" && value is RejectedNode) continue; // The alias that it merges was reported.
            var known = _asked.Distinct(StringComparer.Ordinal);
            var nearest = NearestName.Find(key.Text, known);
            if (nearest is not null) _missing?.Remove(nearest);
            _told.Add(DiagnosticDescriptors.UnknownKey.At(
                key.Span,
                $"unknown key `{key.Short}` in this {Subject}",
                nearest is not null ? $"did you mean `{nearest}`?" : $"known keys: {string.Join(", ", known)}"));
        }

        foreach (var key in _missing ?? [])
            _told.Add(DiagnosticDescriptors.MissingKey.At(Start, $"this {Subject} has no `{key}`", $"add `{key}: …`"));
        _told.TakeBack(_asked);
    }

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
