using System.Collections.Immutable;
using Archive.Markup.Links;
using Archive.Markup.Text;
using Archive.Plans.Progress;
using Archive.Plans.Safety;
using Archive.Plans.Warnings;
using Archive.Plans.Wording;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Storage.Output;
using Archive.Wiring.Progress;

namespace Archive.Site.PlanPages;

/// <summary>A list of which all steps are put into one document.</summary>
/// <typeparam name="T">What a step is made from.</typeparam>
/// <param name="Title">What the list is called.</param>
/// <param name="List">Path of the list.</param>
/// <param name="Folder">Its folder.</param>
/// <param name="Trail">The pages above it.</param>
internal sealed record StepList<T>(string Title, string List, string Folder, Func<PageLocation, ImmutableArray<Link>> Trail)
{
    /// <summary>What the list is called; the title itself, unless this document is a part of it.</summary>
    public string ListTitle { get; init; } = Title;

    /// <summary>The folder of the list whose ticks it shares on a device.</summary>
    public string TicksFolder { get; init; } = Folder;

    /// <summary>What it holds, in sentences.</summary>
    public required ImmutableArray<string> Says { get; init; }

    /// <summary>What steps are about: the head of their column.</summary>
    public required string Things { get; init; }

    /// <summary>The steps that are left, under their headings.</summary>
    public required ImmutableArray<(RowHeading Heading, T Step)> Steps { get; init; }

    /// <summary>Makes a step of the document, without warnings and state.</summary>
    public required Func<T, PageLocation, ListedStep> Row { get; init; }

    /// <summary>What can hurt in some of the steps.</summary>
    public Func<IReadOnlyCollection<T>, ImmutableArray<Caution>> Cautions { get; init; } = _ => [];

    /// <summary>What to watch out for at a step.</summary>
    public Func<T, ImmutableArray<StepWarning>> Warnings { get; init; } = _ => [];

    /// <summary>What a step waits for.</summary>
    public Func<T, ImmutableArray<Precondition>> WaitsFor { get; init; } = _ => [];
}

/// <summary>Puts all steps of a list into one document, for paper and for a phone.</summary>
internal sealed class StepListPages(ArchiveModel archive, PageFactory pageFactory)
{
    // What so many steps say is said once in full, and in short at each.
    private const int Repeated = 3;

    /// <summary>Where the document of a list is.</summary>
    /// <param name="folder">The list's folder.</param>
    public static string PathOf(string folder) => $"{folder}/steps/index.html";

    /// <summary>How many steps are left, in a sentence: a list has those only.</summary>
    /// <param name="done">How many the record says were done.</param>
    /// <param name="all">How many there are.</param>
    /// <param name="word">What a step that was done is.</param>
    public static string Left(int done, int all, string word) => done == 0
        ? $"{Phrase.Heading(Phrase.Count(all, "step"))}; none is {word} yet, as far as the record says."
        : $"{Phrase.Count(all - done)} of {Phrase.Count(all, "step")} left; {Phrase.Count(done)} {(done == 1 ? "is" : "are")} {word}, as the record says.";

    /// <summary>What the ticks of a list are kept under on a device: the same for all forms of it.</summary>
    /// <param name="folder">The list's folder.</param>
    public static string TicksOf(ArchiveModel archive, string folder) =>
        $"asfound {(folder.StartsWith("plans/", StringComparison.Ordinal) ? folder["plans/".Length..] : folder)} {archive.Statement.Base?.Value.AbsoluteUri ?? archive.Statement.Title?.Value}";

    /// <summary>The document; of a very long list several.</summary>
    public IEnumerable<OutputFile> All<T>(StepList<T> list)
    {
        var rows = new GroupedRows<T>(
            list.Steps, PathOf(list.Folder), $"{list.Folder}/steps", row => row.Heading.Short, SheetSizes.StepsToPrint);
        for (var number = 1; number <= rows.Sheets.Count; number++)
        {
            var sheet = number;
            yield return pageFactory.Page(rows.Sheets.Path(sheet), location => Page(list, rows, sheet, location));
        }
    }

    private StepListPage Page<T>(StepList<T> list, GroupedRows<T> rows, int sheet, PageLocation location)
    {
        List<T> steps = [.. rows.Sheets.RowsOf(sheet).Select(row => row.Row)];
        List<SaidOfStep> said = [.. steps.Select(step => SaidOfStep.From(list.Warnings(step), list.WaitsFor(step)))];
        var notes = Notes.From(said);
        return new StepListPage(pageFactory.Head(
            "step-list",
            location,
            $"{list.Title}: all steps",
            $"All steps of the list in one document, to print or to work through one by one on a phone: {list.Title}.",
            [.. list.Trail(location), new Link(list.ListTitle, location.To(list.List))]))
        {
            List = new Link(list.ListTitle, location.To(list.List)),
            Says = list.Says,
            Cautions = list.Cautions(steps),
            Notes =
            [
                .. notes.Warnings.Values.Select(warning =>
                    new StepNote(warning.Lead, TextPartWriter.Write(warning.Parts, archive, location))),
                .. notes.Letters.Select(pair => new StepNote(
                    $"Waiting {pair.Value}",
                    TextPartWriter.Write([.. notes.Waits[pair.Key].Parts, "."], archive, location)))
            ],
            Things = list.Things,
            Groups = rows.On(sheet, (step, place) => RowOf(list.Row(step, location), said[place], notes, location)),
            Ticks = TicksOf(archive, list.TicksFolder),
            Sheet = rows.Sheets.On(sheet, location),
        };
    }

    private ListedStep RowOf(ListedStep row, SaidOfStep said, Notes notes, PageLocation location) => row with
    {
        Warnings = [.. said.Warnings.Select(warning =>
            new ListedWarning(WarningLine.Create(warning, archive, location), notes.Warnings.ContainsKey(warning.Lead)))],
        State = said.Waits.IsEmpty
            ? HtmlFragment.None
            : TextPartWriter.Write(StateText.Parts(StepState.From(said.Waits.Select(each => each.For))), archive, location),
        Waits = said.Waits.IsEmpty
            ? HtmlFragment.None
            : TextPartWriter.Write([.. said.Waits.SelectMany((each, index) => notes.ShortOf(each, index))], archive, location),
    };

    // What is said at a step: its warnings, and what it waits for, each in words.
    private sealed record SaidOfStep(ImmutableArray<StepWarning> Warnings, ImmutableArray<Wait> Waits)
    {
        public static SaidOfStep From(ImmutableArray<StepWarning> warnings, ImmutableArray<Precondition> waitsFor) =>
            new(warnings, [.. waitsFor.Select(each => new Wait(each, StateText.Describe(each)))]);
    }

    private sealed record Wait(Precondition For, ImmutableArray<TextPart> Parts)
    {
        public string Text { get; } = string.Concat(Parts.Select(part => part.Text));
    }

    // What several steps say alike: of warnings those whose first words mean the same at all of them, of what steps wait for the same
    // words, which get a letter.
    private sealed record Notes(
        Dictionary<string, StepWarning> Warnings, Dictionary<string, string> Letters, Dictionary<string, Wait> Waits)
    {
        public static Notes From(List<SaidOfStep> steps)
        {
            var warnings = steps.SelectMany(step => step.Warnings).GroupBy(warning => warning.Lead, StringComparer.Ordinal)
                .Where(alike => alike.Count() >= Repeated && alike.First().Text is var first && alike.All(warning => warning.Text == first))
                .ToDictionary(alike => alike.Key, alike => alike.First(), StringComparer.Ordinal);
            var waits = steps.SelectMany(step => step.Waits).GroupBy(wait => wait.Text, StringComparer.Ordinal)
                .Where(alike => alike.Count() >= Repeated)
                .ToList();
            return new Notes(warnings, waits.Select((alike, index) => (alike.Key, LetterOf(index))).ToDictionary(
                pair => pair.Key,
                pair => pair.Item2,
                StringComparer.Ordinal), waits.ToDictionary(alike => alike.Key, alike => alike.First(), StringComparer.Ordinal));
        }

        public IEnumerable<TextPart> ShortOf(Wait wait, int index)
        {
            if (index > 0) yield return "; ";
            if (Letters.TryGetValue(wait.Text, out var letter)) yield return letter;
            else foreach (var part in wait.Parts) yield return part;
        }

        // A to Z, then AA, AB and on.
        private static string LetterOf(int index) => (index < 26 ? "" : LetterOf((index / 26) - 1)) + (char)('A' + (index % 26));
    }
}
