using System.Collections.Immutable;
using System.Text;

namespace Archive.SchemeSearch.Proposals;

/// <summary>A label that a proposal does not explain.</summary>
/// <param name="Label">As typed.</param>
/// <param name="Why">A clause, lower case.</param>
public sealed record CounterExample(string Label, string Why);

/// <summary>A label, and the addresses that a proposal makes of it; none where it is not explained.</summary>
public sealed record PredictedLabel(string Label, ImmutableArray<string> Means);

/// <summary>A scheme that explains labels, and what speaks for and against it.</summary>
public sealed record SchemeProposal
{
    /// <summary>Regular expression, as the key <c>reads</c> of a scheme has it.</summary>
    public required string Reads { get; init; }

    /// <summary>An address for each end, as the key <c>means</c> has them.</summary>
    public required ImmutableArray<string> Means { get; init; }

    /// <summary>Tables by name.</summary>
    public required ImmutableSortedDictionary<string, ImmutableSortedDictionary<string, string>> Tables { get; init; }

    /// <summary>Characters that were mistaken for each other, two by two.</summary>
    public required ImmutableArray<string> Confusions { get; init; }

    /// <summary>How the label is divided, in words.</summary>
    public required string Layout { get; init; }

    /// <summary>Bits that this scheme saves against writing the labels out letter by letter.</summary>
    public required double SavedBits { get; init; }

    /// <summary>Of all labels, the share that it explains; 0 to 1.</summary>
    public required double Share { get; init; }

    /// <summary>Labels with a seen end of which the place named first is the end recorded first, and the others.</summary>
    public required (int First, int Second) Order { get; init; }

    /// <summary>What each label means, in their order.</summary>
    public required ImmutableArray<PredictedLabel> Labels { get; init; }

    public required ImmutableArray<CounterExample> CounterExamples { get; init; }

    /// <summary>Ends that need no hand tag, if the rest of the labels are like these.</summary>
    public required int EndsSaved { get; init; }

    /// <summary>What tagging them by hand would take.</summary>
    public required TimeSpan TimeSaved { get; init; }

    /// <summary>The record of the scheme, to be pasted into <c>schemes/</c>.</summary>
    /// <param name="id">Its id.</param>
    public string ToYaml(string id)
    {
        var yaml = new StringBuilder();
        yaml.Append("id: ").Append(id).Append('\n');
        yaml.Append("name: ").Append(Quoted($"Labels with {Layout}")).Append('\n');
        if (Means.Length == 1) yaml.Append("on: end\n");
        yaml.Append("reads: '").Append(Reads.Replace("'", "''", StringComparison.Ordinal)).Append("'\n");
        yaml.Append("means: [").AppendJoin(", ", Means.Select(Quoted)).Append("]\n");
        if (!Tables.IsEmpty)
        {
            yaml.Append("tables:\n");
            foreach (var (name, lines) in Tables)
            {
                yaml.Append("  ").Append(name).Append(": {")
                    .AppendJoin(", ", lines.Select(line => $"{Quoted(line.Key)}: {Quoted(line.Value)}")).Append("}\n");
            }
        }

        if (!Confusions.IsEmpty) yaml.Append("confusions: [").AppendJoin(", ", Confusions.Select(Quoted)).Append("]\n");
        return yaml.ToString();
    }

    private static string Quoted(string text)
    {
        var escaped = text.Replace("\\", "\\\\", StringComparison.Ordinal)
            .Replace("\"", "\\\"", StringComparison.Ordinal)
            .Replace("\n", "\\n", StringComparison.Ordinal);
        return $"\"{escaped}\"";
    }
}
