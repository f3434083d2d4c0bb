using System.Globalization;
using System.Text.Json;
using Archive.Cli.Options;
using Archive.Cli.Output;
using Archive.Diagnostics.Rendering;
using Archive.Publishing.Finding;
using Archive.Publishing.Requests;
using Archive.Records.Model;
using Archive.Search.Documents;
using Archive.Search.Finding;

namespace Archive.Cli.Commands;

/// <summary><c>asfound find</c>: the records that have the words, best first, each with its file and line.</summary>
internal static class FindCommand
{
    private const int UsualMost = 20;

    /// <summary>How it can be written.</summary>
    internal static readonly string[] Formats = ["text", "json"];

    /// <summary>What kinds of record are called.</summary>
    internal static readonly string[] Kinds = [.. Enum.GetValues<RecordKind>().Select(kind => kind.Noun())];

    private static readonly JsonSerializerOptions Json = new() { WriteIndented = true, NewLine = "\n", Encoder = JsonText.Alone };

    internal static ExitCode Run(Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        if (arguments.Most is < 1)
            throw new WrongCommandLineException($"cannot show {arguments.Most} records", "use --most with a number from 1");
        var options = CommandOptions.From(arguments);
        using var finder = RecordFinder.Open(options.Order, cancellation);
        var found = finder.Find(string.Join(' ', arguments.Sought), arguments.Kind, Groups(arguments), arguments.Most ?? UsualMost);
        if (arguments.FindFormat == "json") WriteJson(terminal.Out, options.Order, found);
        else WriteText(terminal, options.Order, found);
        return ExitCode.Success;
    }

    private static IEnumerable<SearchFacet> Groups(Arguments arguments) => new (FacetKind By, string? Value)[]
    {
        (FacetKind.Module, arguments.Module),
            (FacetKind.Row, arguments.Row),
            (FacetKind.CableKind, arguments.CableKind),
            (FacetKind.Date, arguments.Date),
            (FacetKind.Person, arguments.Person),
        }.Where(group => group.Value is not null).Select(group => new SearchFacet(group.By, group.Value!));

    private static void WriteText(Terminal terminal, BuildOptions options, SearchResults found)
    {
        foreach (var (document, _) in found.Best)
        {
            var title = document.Title.Length > 0 ? $" {document.Title}" : "";
            var says = document.Says.Length > 0 ? $": {document.Says}" : "";
            terminal.Out.Write(VisibleText.From(string.Create(
                CultureInfo.InvariantCulture,
                $"{options.Prefix}{document.File}:{document.Line}: {document.Id}{title} ({document.Kind.Noun()}){says}")) + "\n");
        }

        terminal.Out.Flush();
        foreach (var hint in found.Told) terminal.Error.Write($"{VisibleText.From(Told(hint))}\n");
        terminal.Error.Write($"{Closing(found)}\n");
    }

    private static string Told(SearchHint hint) => hint.Kind switch
    {
        SearchHintKind.Alike =>
            $"No exact match for “{hint.Typed}”. Showing what looks the same, treating O and 0, I and 1, B and 8, S and 5 as equal.",
        SearchHintKind.Near =>
            $"No match for “{hint.Typed}”. Showing close matches: {string.Join(", ", hint.As.Take(6)).ToUpperInvariant()}{(hint.As.Length > 6 ? " and more" : "")}.",
        _ => $"No match for “{hint.Typed}”.",
    };

    private static string Closing(SearchResults found)
    {
        if (found.Total == 0) return "No results.";
        var some = found.IsPartial
            ? $"No record has all of these words; {ResultWriter.Number(found.Total, "record")} {(found.Total == 1 ? "has" : "have")} some of them"
            : ResultWriter.Number(found.Total, "record");
        return found.Total > found.Best.Length ? $"{some}; showing the first {found.Best.Length}." : $"{some}.";
    }

    private static void WriteJson(TextWriter output, BuildOptions options, SearchResults found) => output.Write(JsonSerializer.Serialize(
        new
        {
            total = found.Total,
            partial = found.IsPartial,
            told = found.Told.Select(hint => new { how = hint.Kind.ToString().ToLowerInvariant(), typed = hint.Typed, @as = hint.As }),
            found = found.Best.Select(hit => new
            {
                id = hit.Document.Id,
                kind = hit.Document.Kind.Noun(),
                title = hit.Document.Title,
                says = hit.Document.Says,
                file = options.Prefix + hit.Document.File,
                line = hit.Document.Line,
                page = hit.Document.Page,
                score = hit.Score,
            }),
        },
        Json) + "\n");
}
