using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Records.Reading.Format;
using Archive.Records.Reading.Values;
using Archive.Records.Reference;
using Archive.Records.Tests.Reading;
using Xunit;

namespace Archive.Records.Tests.Reference;

/// <summary>The reader reads exactly what the format declares, and the reference describes exactly that.</summary>
public class FormatTests
{
    public static TheoryData<string> Documents => [.. RecordFormats.All.Select(document => document.Name)];

    /// <summary>A key without a value is reported by the code that reads it: a key that the reader never asks for would pass.</summary>
    [Theory]
    [MemberData(nameof(Documents))]
    public void The_reader_reads_every_declared_key(string name)
    {
        var document = Document(name);
        var paths = Paths(document.Mapping, [], []).ToList();
        Assert.NotEmpty(paths);
        var unread = paths.Where(path => !Read(document, Written(document.Mapping, path)).Diagnostics
            .Any(told => told.Message == $"`{path[^1].Name}` has no value")).Select(path => string.Join('.', path.Select(key => key.Name)));
        Assert.Empty(unread);
    }

    [Theory]
    [MemberData(nameof(Documents))]
    public void The_reader_knows_no_other_key(string name)
    {
        var document = Document(name);
        var told = Read(document, "zqx: 1\n").Diagnostics.Single(told => told.Code == "AF0201");
        Assert.Equal($"known keys: {string.Join(", ", document.Mapping.Keys.Select(key => key.Name))}", told.Help);
    }

    [Theory]
    [MemberData(nameof(Documents))]
    public void Examples_are_read_without_an_error(string name)
    {
        var document = Document(name);
        Assert.Empty(Read(document, FormatText.Example(document), isWhole: true).Diagnostics);
    }

    [Fact]
    public void A_key_of_a_fact_is_read_with_its_evidence()
    {
        foreach (var key in EvidenceFormat.All.Keys)
        {
            var fact = key.Name == "is" ? "{is: }" : $"{{is: 1 kg, {key.Name}: }}";
            var told = Archives.Read("frames/a.yaml", $"id: F\nname: N\nweight: {fact}\n");
            Assert.Contains(told.Diagnostics, each => each.Message == $"`{key.Name}` has no value");
        }
    }

    [Theory]
    [MemberData(nameof(Documents))]
    public void The_page_names_every_key_and_every_word(string name)
    {
        var document = Document(name);
        var page = FormatText.Page(document);
        foreach (var key in Paths(document.Mapping, [], []).Select(path => path[^1]))
        {
            Assert.Contains($"- `{key.Name}`: ", page, StringComparison.Ordinal);
            Assert.Contains(FormatText.Sentence(key), page, StringComparison.Ordinal);
        }

        Assert.True(document.Mapping.Keys.All(key => key.Meaning.Length > 3 && !key.Meaning.EndsWith('.')));
    }

    [Fact]
    public void The_overview_explains_evidence()
    {
        var overview = RecordFormats.Overview;
        foreach (var key in EvidenceFormat.All.Keys) Assert.Contains($"`{key.Name}`", overview, StringComparison.Ordinal);
        foreach (var word in EnumNames<EvidenceSource>.All) Assert.Contains($"`{word}`", overview, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_folder_has_its_format() =>
        Assert.Equal(["archive", .. RecordFolders.All], RecordFormats.All.Select(document => document.Name));

    /// <summary>The keys from the top of a document to each of its keys.</summary>
    internal static IEnumerable<ImmutableArray<FormatKey>> Paths(
        MappingFormat mapping, ImmutableArray<FormatKey> above, ImmutableHashSet<MappingFormat> seen)
    {
        if (seen.Contains(mapping)) yield break;
        foreach (var key in mapping.Keys)
        {
            yield return above.Add(key);
            foreach (var below in Mappings(key.Node))
            {
                foreach (var path in Paths(below, above.Add(key), seen.Add(mapping))) yield return path;
            }
        }
    }

    private static IEnumerable<MappingFormat> Mappings(NodeFormat node) => node switch
    {
        MappingFormat mapping => [mapping],
        ListFormat list => Mappings(list.Item),
        TableFormat table => Mappings(table.Entry),
        ChoiceFormat choice => Mappings(choice.Full).Concat(choice.Brief is NamedFormat ? [] : Mappings(choice.Brief)),
        NamedFormat named => Mappings(named.Node()),
        _ => [],
    };

    // The mapping with the keys that it needs, and the last of the path without a value.
    private static string Written(MappingFormat mapping, ImmutableArray<FormatKey> path) => string.Concat(mapping.Keys
        .Where(key => key == path[0] || (key.IsRequired && key.Example is not null))
        .Select(key => $"{key.Name}: {(key == path[0] ? Value(path) : key.Example)}\n"));

    private static string Value(ImmutableArray<FormatKey> path) =>
        path.Length == 1 ? "" : Node(path[0].Node, path[1..]);

    private static string Node(NodeFormat node, ImmutableArray<FormatKey> path) => node switch
    {
        MappingFormat mapping => "{" + string.Join(", ", mapping.Keys
            .Where(key => key == path[0] || (key.IsRequired && key.Example is not null))
            .Select(key => $"{key.Name}: {(key == path[0] ? Value(path) : key.Example)}")) + "}",
        ListFormat list => $"[{Node(list.Item, path)}]",
        TableFormat table => $"{{k: {Node(table.Entry, path)}}}",
        ChoiceFormat choice => Node(choice.Full, path),
        NamedFormat named => Node(named.Node(), path),
        _ => throw new InvalidOperationException(node.ToString()),
    };

    private static ParseResult Read(DocumentFormat document, string yaml, bool isWhole = false) => document switch
    {
        { Name: "archive" } => InMemoryFolder.Empty.With("archive.yaml", yaml).Read(),
        { IsYaml: false } => Archives.Read("stories/a.md", isWhole ? yaml : $"---\n{yaml}---\nText.\n"),
        _ => Archives.Read($"{document.Place}a.yaml", yaml),
    };

    private static DocumentFormat Document(string name) => RecordFormats.Find(name)!;
}
