using System.CommandLine;
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

    // As a shell takes them: what has a space is in quotes.
    internal static readonly string KindsInWords = string.Join(
        ", ", Kinds[..^1].Select(kind => kind.Contains(' ', StringComparison.Ordinal) ? $"\"{kind}\"" : kind)) + $" or {Kinds[^1]}";

    private static readonly JsonSerializerOptions Json = new() { WriteIndented = true, NewLine = "\n", Encoder = JsonText.Alone };

    private static readonly Option<string> KindOption = new Option<string>("--kind")
    {
        HelpName = "NOUN",
        Description = $"only this kind of record: {KindsInWords}",
    }.AcceptOnlyFromAmong(Kinds);

    private static readonly Option<string> ModuleOption =
        new("--module") { HelpName = "NAME", Description = "only frames of this module, and what ends at them or shows them" };

    private static readonly Option<string> RowOption =
        new("--row") { HelpName = "ID", Description = "only frames of this row, and what ends at them or shows them" };

    private static readonly Option<string> CableKindOption =
        new("--cable-kind") { HelpName = "NAME", Description = "only cables of this kind" };

    private static readonly Option<string> DateOption =
        new("--date") { HelpName = "MONTH", Description = "only this month, such as 2026-05" };

    private static readonly Option<string> PersonOption =
        new("--person") { HelpName = "NAME", Description = "only what this person recorded, photographed or did" };

    private static readonly Option<int?> MostOption = new("--most") { HelpName = "NUMBER", Description = "how many to show (20)" };

    private static readonly Option<string> FormatOption = new Option<string>("--format")
    {
        HelpName = "FORMAT",
        Description = """
            how they are written (text):
              text  a line each: file:line: id, name, what it is
              json  for programs; the fields are stable
            """,
    }.AcceptOnlyFromAmong(Formats);

    private static readonly Argument<string[]> WordsArgument = new("WORDS")
    {
        Arity = ArgumentArity.OneOrMore,
        Description =
            "what to look for; \"in quotes\" for words that belong together, -word for words that must be absent (put it all in single quotes, or the shell removes them)",
    };

    /// <summary>The command and what it takes.</summary>
    internal static Command Create(Terminal terminal) => CommandFactory.Create(
        "find",
        "find records by words or codes, with file and line",
        Run,
        terminal,
        WordsArgument,
        ArchiveOptions.Content,
        KindOption,
        ModuleOption,
        RowOption,
        CableKindOption,
        DateOption,
        PersonOption,
        MostOption,
        FormatOption,
        ArchiveOptions.Cache,
        ArchiveOptions.Themes);

    internal static ExitCode Run(Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        var most = arguments.Get(MostOption) ?? UsualMost;
        if (most < 1) throw new WrongCommandLineException($"cannot show {most} records", "use --most with a number from 1");
        var options = CommandOptions.From(arguments);
        using var finder = RecordFinder.Open(options.Order, cancellation);
        var words = string.Join(' ', arguments.Get(WordsArgument)!);
        var found = finder.Find(words, arguments.Get(KindOption), Groups(arguments), most);
        if (arguments.Get(FormatOption) == "json") WriteJson(terminal.Out, options.Order, found);
        else WriteText(terminal, options.Order, found);
        return ExitCode.Success;
    }

    private static IEnumerable<SearchFacet> Groups(Arguments arguments) => new (FacetKind By, string? Value)[]
    {
        (FacetKind.Module, arguments.Get(ModuleOption)),
            (FacetKind.Row, arguments.Get(RowOption)),
            (FacetKind.CableKind, arguments.Get(CableKindOption)),
            (FacetKind.Date, arguments.Get(DateOption)),
            (FacetKind.Person, arguments.Get(PersonOption)),
        }.Where(group => group.Value is not null).Select(group => new SearchFacet(group.By, group.Value!));

    private static void WriteText(Terminal terminal, BuildOptions options, SearchResults found)
    {
        foreach (var (document, _) in found.Best)
        {
            var title = document.Title.Length > 0 ? $" {document.Title}" : "";
            var says = document.Says.Length > 0 ? $": {document.Says}" : "";
            // A page that is no record's stands in no file of the record.
            var place = document.Kind is null
                ? document.Page + ":"
                : string.Create(CultureInfo.InvariantCulture, $"{options.Prefix}{document.File}:{document.Line}: {document.Id}");
            terminal.Out.Write(VisibleText.From($"{place}{title} ({document.Noun}){says}") + "\n");
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
                kind = hit.Document.Noun,
                title = hit.Document.Title,
                says = hit.Document.Says,
                file = hit.Document.Kind is null ? null : options.Prefix + hit.Document.File,
                line = hit.Document.Kind is null ? (int?)null : hit.Document.Line,
                page = hit.Document.Page,
                score = hit.Score,
            }),
        },
        Json) + "\n");
}
