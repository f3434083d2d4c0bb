using System.CommandLine;
using Archive.Cli.Options;
using Archive.Cli.Output;
using Archive.Diagnostics.Rendering;
using Archive.Starter;

namespace Archive.Cli.Commands;

/// <summary>
/// What is asked about a new archive. Each question is an option too; where nobody can answer, the usual answer is taken.
/// </summary>
internal static class NewArchiveQuestions
{
    internal static readonly Option<string> TitleOption =
        new("--title") { HelpName = "TEXT", Description = "the title of the archive (the name of the folder)" };

    internal static readonly Option<string> CustodianOption = new("--custodian") { HelpName = "NAME", Description = "who looks after it" };

    internal static readonly Option<string> BaseOption = new("--base")
    {
        HelpName = "URL",
        Description = "the web address at which the site will be; QR labels lead there",
    };

    internal static readonly Option<string> UnitsOption =
        new("--units") { HelpName = "UNITS", Description = "the units that pages show: metric, inch_pound or both (metric)" };

    internal static readonly Option<string> LanguageOption =
        new("--language") { HelpName = "TAG", Description = "the language that the record is written in (en)" };

    private const string UsualUnits = "metric";
    private const string UsualLanguage = "en";

    /// <summary>The answers, by the rules of archive.yaml.</summary>
    /// <param name="path">Full path of the new archive's folder.</param>
    /// <exception cref="WrongCommandLineException">An option has a value that cannot be, or answers ended.</exception>
    internal static StarterAnswers Ask(Arguments arguments, string path, Terminal terminal)
    {
        var answers = new StarterAnswers(Title(path), null, null, UsualUnits, UsualLanguage);
        (string Question, string Option, string? Typed, string? Usual, Func<StarterAnswers, string, StarterAnswers> With)[] questions =
        [
            ("Title of the archive", "--title", arguments.Get(TitleOption), answers.Title, (all, one) => all with { Title = one }),
            (
                "Who looks after it (Enter: not known yet)",
                "--custodian",
                arguments.Get(CustodianOption),
                null,
                (all, one) => all with { Custodian = one }),
            (
                "Web address of the site, for QR labels (Enter: not known yet)",
                "--base",
                arguments.Get(BaseOption),
                null,
                (all, one) => all with { Base = one }),
            (
                "Units that pages show: metric, inch_pound or both",
                "--units",
                arguments.Get(UnitsOption),
                UsualUnits,
                (all, one) => all with { Units = one }),
            (
                "Language that you write in, as a tag such as en, de or fr-CA",
                "--language",
                arguments.Get(LanguageOption),
                UsualLanguage,
                (all, one) => all with { Language = one }),
        ];
        foreach (var (_, option, typed, _, with) in questions)
        {
            if (typed is null) continue;
            answers = with(answers, typed);
            if (StarterArchive.Problem(answers) is { } problem)
                throw new WrongCommandLineException($"{option} {typed}: {problem.Message}", problem.Help);
        }

        if (terminal.Input is null) return answers;
        foreach (var (question, _, typed, usual, with) in questions)
        {
            if (typed is null) answers = Answer(terminal, usual is null ? $"{question}: " : $"{question} [{usual}]: ", answers, with);
        }

        return answers;
    }

    private static StarterAnswers Answer(
        Terminal terminal, string question, StarterAnswers answers, Func<StarterAnswers, string, StarterAnswers> with)
    {
        while (true)
        {
            terminal.Error.Write(question);
            if (terminal.Input!.ReadLine() is not { } line)
                throw new WrongCommandLineException("the answers ended, so nothing was written", "answer each question, or press Enter");
            if (string.IsNullOrWhiteSpace(line)) return answers;
            var answered = with(answers, line.Trim());
            if (StarterArchive.Problem(answered) is not { } problem) return answered;
            terminal.Error.Write($"  {VisibleText.From(problem.Message)}: {VisibleText.From(problem.Help)}\n");
        }
    }

    // our-archive: Our archive
    private static string Title(string path)
    {
        var words = string.Join(' ', Path.GetFileName(path).Split(['-', '_', ' '], StringSplitOptions.RemoveEmptyEntries));
        return words.Length == 0 ? "Our archive" : char.ToUpperInvariant(words[0]) + words[1..];
    }
}
