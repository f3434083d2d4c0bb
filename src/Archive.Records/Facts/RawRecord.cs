using System.Collections.Immutable;
using System.Globalization;
using Archive.Diagnostics;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Records.Reading.Kinds;
using Archive.Records.Reading.Syntax;

namespace Archive.Records.Facts;

/// <summary>One thing that a record says, as it is written.</summary>
/// <param name="Name">Which: keys joined by full stops, such as <c>positions.S7.holds</c>, <c>ends.1.at</c>, <c>length</c>,
/// <c>length.from</c>.</param>
/// <param name="Text">What it says; the items of a plain list are joined by commas.</param>
public readonly record struct RawFact(string Name, string Text, SourceSpan Span);

/// <summary>
/// A record taken apart into what it says, one fact after the other, whatever file, order or style it is written in. Nothing is judged:
/// this serves to tell two states of a record apart.
/// </summary>
/// <param name="Kind">Its kind; null for <c>archive.yaml</c>.</param>
/// <param name="Id">Its id; <c>archive</c> for <c>archive.yaml</c>.</param>
/// <param name="Facts">What it says, in the order of the names.</param>
public sealed record RawRecord(RecordKind? Kind, string Id, SourceSpan Span, ImmutableArray<RawFact> Facts)
{
    /// <summary>What <c>archive.yaml</c> is called among records.</summary>
    public const string Statement = "archive";

    /// <summary>What one fact says; null where the record does not say it.</summary>
    /// <param name="name">The fact's name.</param>
    public RawFact? Fact(string name) => Facts.FirstOrDefault(fact => fact.Name == name) is { Name: not null } fact ? fact : null;

    /// <summary>Takes all records of an archive apart. What cannot be read is passed over.</summary>
    /// <param name="folder">The archive's folder.</param>
    /// <param name="cancellation">Asks to stop.</param>
    /// <returns>Records in the order of files, of an id that is used twice the first; and the files that could be read in part or not at
    /// all, by what is wrong first.</returns>
    public static (ImmutableArray<RawRecord> Records, ImmutableArray<Diagnostic> Unread) All(
        IArchiveFolder folder, CancellationToken cancellation = default)
    {
        var paths = folder.Files;
        var read = new (List<RawRecord> Records, Diagnostic? Fault)[paths.Length];
        Parallel.For(0, paths.Length, new ParallelOptions { CancellationToken = cancellation }, i =>
        {
            var diagnostics = new DiagnosticBag();
            read[i] = (
                [.. From(folder, paths[i], diagnostics)],
                diagnostics.All.FirstOrDefault(diagnostic => diagnostic.Severity == Severity.Error));
        });
        return (
            [.. read.SelectMany(file => file.Records).DistinctBy(record => record.Id, StringComparer.Ordinal)],
            [.. folder.Unusable, .. read.Select(file => file.Fault).OfType<Diagnostic>()]);
    }

    private static IEnumerable<RawRecord> From(IArchiveFolder folder, string path, DiagnosticBag diagnostics)
    {
        var role = FileRole.From(path);
        if (role == default || folder.Follow(FileReader.StatementFile, path).Outcome == PathStatus.Leaves) return [];
        if (folder.Read(path, FileText.Largest).Bytes is not { } bytes
            || FileText.Decode(path, bytes, diagnostics) is not { } source) return [];
        if (role.Kind == RecordKind.Story) return Story(source, diagnostics);
        var nodes = path.EndsWith(".csv", StringComparison.OrdinalIgnoreCase)
            ? RecordTableReader.Rows(role.Kind!.Value, source, diagnostics)
            : YamlSyntax.Records(source.Whole, diagnostics);
        return nodes.OfType<MappingNode>()
            .Select(node => From(role.Kind, role.IsStatement ? Statement : IdOf(node), node))
            .Where(record => record.Id.Length > 0);
    }

    // The head is a record; the story below it is one fact.
    private static IEnumerable<RawRecord> Story(SourceText source, DiagnosticBag diagnostics)
    {
        if (StoryReader.Read(source, diagnostics) is not Story story || StoryReader.Head(source) is not { } head) yield break;
        var record = From(RecordKind.Story, story.Id, head);
        yield return record with
        {
            Span = story.Span,
            Facts = [.. record.Facts
            .Append(new RawFact("text", story.Body.Value, story.Body.Span))
            .OrderBy(fact => fact.Name, StringComparer.Ordinal)]
        };
    }

    /// <summary>Takes one record apart.</summary>
    internal static RawRecord From(RecordKind? kind, string id, MappingNode node)
    {
        var facts = new List<RawFact>();
        foreach (var entry in node.Entries.Where(entry => entry.Key.Text != "id")) Take(entry.Key.Text, entry.Value, facts);
        return new RawRecord(kind, id, node.Span, [.. facts.OrderBy(fact => fact.Name, StringComparer.Ordinal)]);
    }

    private static void Take(string name, SyntaxNode node, List<RawFact> facts)
    {
        switch (node)
        {
            case ScalarNode scalar:
                if (!scalar.IsEmpty) facts.Add(new RawFact(name, scalar.Text.Trim(), scalar.Span));
                break;
            case ListNode list when list.Items.All(IsPlain):
                facts.Add(new RawFact(name, string.Join(", ", list.Items.Select(Plain)), list.Span));
                break;
            case ListNode list:
                for (var i = 0; i < list.Items.Length; i++)
                {
                    var key = list.Items[i] is MappingNode item && IdOf(item) is { Length: > 0 } id
                        ? id
                        : (i + 1).ToString(CultureInfo.InvariantCulture);
                    Take($"{name}.{key}", list.Items[i], facts);
                }

                break;
            case MappingNode mapping:
                // {is: 18.3 m, from: printed}: the fact itself, and how it is known beside it.
                foreach (var entry in mapping.Entries.Where(entry => entry.Key.Text != "id"))
                    Take(entry.Key.Text == "is" ? name : $"{name}.{entry.Key.Text}", entry.Value, facts);
                break;
        }
    }

    // Points and boxes are lists of lists of numbers; they are one fact together.
    private static bool IsPlain(SyntaxNode node) =>
        node is ScalarNode || (node is ListNode list && list.Items.All(item => item is ScalarNode));

    private static string Plain(SyntaxNode node) =>
        node is ScalarNode scalar ? scalar.Text.Trim() : $"[{string.Join(", ", ((ListNode)node).Items.Select(Plain))}]";

    /// <summary>The id that a mapping states; empty if none.</summary>
    internal static string IdOf(MappingNode node) =>
        node.Entries.FirstOrDefault(entry => entry.Key?.Text == "id").Value is ScalarNode id ? id.Text : "";
}
