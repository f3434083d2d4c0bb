using System.Collections.Immutable;
using Archive.SchemeSearch.Labels;
using Archive.SchemeSearch.Lengths;
using Archive.SchemeSearch.Places;

namespace Archive.SchemeSearch.Proposals;

/// <summary>What a search looks things up in.</summary>
internal sealed class SearchData
{
    internal SearchData(IReadOnlyList<TypedLabel> labels, PortCatalog catalog)
    {
        (Labels, Catalog) = ([.. labels], catalog);
        Letters = LetterModel.Create(labels);
        Seen = [.. labels.Select(label => label.SeenEnds.Select(catalog.Find).Where(port => port >= 0).ToImmutableArray())];
    }

    internal ImmutableArray<TypedLabel> Labels { get; }

    internal PortCatalog Catalog { get; }

    /// <summary>What labels cost when they are written out letter by letter.</summary>
    internal LetterModel Letters { get; }

    /// <summary>The ends of each label that were seen and are ports of the record.</summary>
    internal ImmutableArray<ImmutableArray<int>> Seen { get; }

    /// <summary>Look-ups of ports made so far.</summary>
    internal long Work { get; set; }

    /// <summary>Whether a label may mean these ports, by what was seen.</summary>
    internal bool Agrees(int label, IReadOnlyList<int> means)
    {
        var seen = Seen[label];
        if (means.Count == 1) return seen.Length < 2 || seen.Contains(means[0]);
        return means[0] != means[1] && seen.All(means.Contains);
    }

    /// <summary>
    /// Votes of one end for a port: one where the port exists, more where it was seen, against it where others were seen.
    /// </summary>
    internal int Votes(int label, int port)
    {
        if (port < 0) return 0;
        if (Seen[label].Contains(port)) return 4;
        return Seen[label].Length >= 2 ? -4 : 1;
    }
}
