using System.Collections.Immutable;
using Archive.Search.Analysis;
using Archive.Search.Index;

namespace Archive.Search.Shards;

/// <summary>
/// A dictionary cut into shards: the terms that are codes, in order of their looks, or the words. Terms of one look stay together; a
/// beginning that reaches over a cut has its <see cref="PrefixSummary"/>. What stands before the first digit of codes is a beginning among
/// the words, with a head where it lies: a word without digits needs the words alone.
/// </summary>
internal sealed class TermShards
{
    private readonly ShardSizes _sizes;
    private readonly IndexTerms _index;
    private readonly List<(string Look, IndexTerm Term)> _terms;
    private readonly Func<string, string> _lookOf;
    private readonly Dictionary<string, PrefixSummary> _leads;
    private readonly bool _isOfCodes;
    private readonly List<int> _firsts;

    private TermShards(
        IndexTerms index,
        ShardSizes sizes,
        List<(string Look, IndexTerm Term)> terms,
        Dictionary<string, PrefixSummary> leads,
        Func<string, string> lookOf)
    {
        _leads = leads;
        _isOfCodes = leads.Count == 0;
        _sizes = sizes;
        _index = index;
        _terms = terms;
        _lookOf = lookOf;
        _firsts = ShardCuts.Find(terms.ConvertAll(term => term.Look), terms.ConvertAll(term => SizeOf(term.Term)), sizes.Terms);
        Cuts = [.. _firsts.Skip(1).Select(first => Separator(terms[first - 1].Look, terms[first].Look))];
        Heads = HeadShards();
    }

    /// <summary>Number of shards; one at least.</summary>
    public int Count => _firsts.Count;

    /// <summary>
    /// For each shard but the first, the shortest text that comes after all before it and not after its first look. All but its last letter
    /// is common to both sides of the cut.
    /// </summary>
    public ImmutableArray<string> Cuts { get; }

    /// <summary>Heads in shards, in order of looks, each with the look that its first has.</summary>
    public ImmutableArray<(string FirstLook, ImmutableArray<PrefixSummary> Heads)> Heads { get; }

    /// <param name="sizes">How large shards may be.</param>
    public static TermShards OfCodes(IndexTerms index, ShardSizes sizes)
    {
        var terms =
            index.Terms.Where(term => CodeKeys.IsCode(term.Key)).Select(term => (Look: Misreadings.Look(term.Key), Term: term)).ToList();
        terms.Sort(static (a, b) => string.CompareOrdinal(a.Look, b.Look) is var by and not 0
            ? by
            : string.CompareOrdinal(a.Term.Key, b.Term.Key));
        return new TermShards(index, sizes, terms, [], beginning => CodeKeys.AsPrefix(Misreadings.Look(beginning)));
    }

    /// <summary>The terms that hold no digit; they look as they are.</summary>
    /// <param name="sizes">How large shards may be.</param>
    public static TermShards OfWords(IndexTerms index, ShardSizes sizes)
    {
        var leads = Leads(index);
        var words = index.Terms.Where(term => !CodeKeys.IsCode(term.Key)).ToList();
        var known = words.Select(term => term.Key).ToHashSet(StringComparer.Ordinal);
        words.AddRange(leads.Keys
            .Where(lead => !known.Contains(lead))
            .Select(lead => new IndexTerm(lead, default, default, default, default)));
        words.Sort(static (a, b) => string.CompareOrdinal(a.Key, b.Key));
        return new TermShards(index, sizes, words.ConvertAll(term => (Look: term.Key, Term: term)), leads, beginning => beginning);
    }

    private static Dictionary<string, PrefixSummary> Leads(IndexTerms index)
    {
        var leads = new Dictionary<string, PrefixSummary>(StringComparer.Ordinal);
        var headOf = leads.GetAlternateLookup<ReadOnlySpan<char>>();
        foreach (var term in index.Terms)
        {
            var lead = term.Key.AsSpan(0, Math.Max(0, term.Key.AsSpan().IndexOfAnyInRange('0', '9')));
            for (var length = 1; length <= lead.Length; length++)
            {
                if (!headOf.TryGetValue(lead[..length], out var head))
                    headOf[lead[..length]] = head = new PrefixSummary(index, lead[..length].ToString());
                head.Add(term);
            }
        }

        return leads;
    }

    /// <summary>The terms of a shard.</summary>
    public IEnumerable<IndexTerm> TermsIn(int shard)
    {
        var end = shard + 1 < _firsts.Count ? _firsts[shard + 1] : _terms.Count;
        for (var i = _firsts[shard]; i < end; i++) yield return _terms[i].Term;
    }

    /// <summary>A shard as a block.</summary>
    public byte[] Block(int shard)
    {
        var block = new TermBlock(_index);
        foreach (var term in TermsIn(shard)) block.Add(term, _leads.GetValueOrDefault(term.Key));
        return block.Bytes();
    }

    /// <summary>The places of a shard's words.</summary>
    public byte[] Places(int shard) => new TermBlock(_index).Places(TermsIn(shard));

    /// <summary>A shard of heads as a block.</summary>
    public byte[] HeadBlock(int shard)
    {
        var block = new TermBlock(_index);
        foreach (var head in Heads[shard].Heads) block.Add(head.Exact, head);
        return block.Bytes();
    }

    private ImmutableArray<(string, ImmutableArray<PrefixSummary>)> HeadShards()
    {
        var reaching = new HashSet<string>(StringComparer.Ordinal);
        foreach (var cut in Cuts)
        {
            for (var length = 1; length < cut.Length; length++) reaching.Add(cut[..length]);
        }

        var heads = new Dictionary<string, PrefixSummary>(StringComparer.Ordinal);
        if (reaching.Count == 0) return [];
        var (isReaching, headOf) = (reaching.GetAlternateLookup<ReadOnlySpan<char>>(), heads.GetAlternateLookup<ReadOnlySpan<char>>());
        foreach (var (look, term) in _terms)
        {
            // A beginning reaches over a cut only where every shorter one does.
            for (var length = 1; length <= term.Key.Length; length++)
            {
                var beginning = term.Key.AsSpan(0, length);
                if (!isReaching.Contains(look.Length == term.Key.Length ? look.AsSpan(0, length) : _lookOf(term.Key[..length]))) break;
                if (_isOfCodes && !CodeKeys.IsCode(beginning)) continue;
                if (!headOf.TryGetValue(beginning, out var head))
                    headOf[beginning] = head = new PrefixSummary(_index, beginning.ToString());
                head.Add(term);
            }
        }

        foreach (var head in heads.Values)
        {
            if (_leads.TryGetValue(head.Beginning, out var lead)) head.Add(lead);
        }

        return InShards([.. heads.Values
            .Select(head => (Look: _lookOf(head.Beginning), Head: head))
            .OrderBy(head => head.Look, StringComparer.Ordinal)
            .ThenBy(head => head.Head.Beginning, StringComparer.Ordinal)]);
    }

    private ImmutableArray<(string, ImmutableArray<PrefixSummary>)> InShards(List<(string Look, PrefixSummary Head)> heads)
    {
        // What reaches over the cuts may all be letters before the first digit of codes, whose heads are among the words.
        if (heads.Count == 0) return [];
        var firsts = ShardCuts.Find(heads.ConvertAll(head => head.Look), heads.ConvertAll(head => SizeOf(head.Head)), _sizes.Heads);
        return [.. firsts.Select((first, i) => (
            heads[first].Look,
            heads[first..(i + 1 < firsts.Count ? firsts[i + 1] : heads.Count)].Select(head => head.Head).ToImmutableArray()))];
    }

    private int SizeOf(PrefixSummary head)
    {
        var (own, other) = head.Documents();
        return 8 + SizeOf(own.Count) + SizeOf(other.Count);
    }

    private int SizeOf(IndexTerm term) =>
        1
            + (_leads.TryGetValue(term.Key, out var lead) ? SizeOf(Math.Min(lead.Weight, _index.Documents)) : 0)
            + SizeOf(term.Own.Count)
            + SizeOf(term.Touches.Count)
            + SizeOf(term.Name.Count)
            + SizeOf(term.Prose.Count)
            + term.Name.Count
            + term.Prose.Count;

    // So many of all documents: about as many bits each as the steps between them have, and one and a half.
    private int SizeOf(int count) => count == 0 ? 0 : 1 + (int)(count * (Math.Log2((double)_index.Documents / count) + 1.5) / 8);

    private static string Separator(string before, string after) => after[..Math.Min(after.Length, ShardCuts.Common(before, after) + 1)];
}

/// <summary>How large shards may be when they are packed, by estimate, in bytes; as script they are a quarter larger.</summary>
/// <param name="Terms">A shard of terms.</param>
/// <param name="Heads">A shard of heads.</param>
internal readonly record struct ShardSizes(int Terms, int Heads)
{
    /// <summary>What keeps a first answer within 150 KB at 100,000 records.</summary>
    public static ShardSizes Usual { get; } = new(80 * 1024, 32 * 1024);
}
