using System.CommandLine;
using System.CommandLine.Help;
using System.Reflection;
using System.Text;
using Archive.Cli.Options;

namespace Archive.Cli.Output;

/// <summary>
/// What <c>--help</c> shows. Title, usage and options come from the commands' own descriptions; what needs more words, the examples and the
/// exit codes are texts in <c>Help/</c>, one for each command, in which a line <c>{options}</c> (or <c>{commands}</c>) says where the
/// tables go.
/// </summary>
internal static class HelpPage
{
    private const int Width = 80;
    private const string Indent = "  ";

    /// <summary>The tool's version.</summary>
    internal static string Version { get; } =
        typeof(HelpPage).Assembly
            .GetCustomAttribute<AssemblyInformationalVersionAttribute>()
            ?.InformationalVersion.Split('+')[0] ?? "0.0.0";

    /// <summary>The page of a command; lines of at most 80 columns.</summary>
    /// <param name="command">The command; the root for all of them.</param>
    internal static string Read(Command command)
    {
        var name = command is RootCommand ? "asfound" : command.Name;
        using var stream = typeof(HelpPage).Assembly.GetManifestResourceStream($"help.{name}")!;
        using var reader = new StreamReader(stream);
        var title = command is RootCommand ? name : $"asfound {name}";
        return $"{title} - {command.Description}\n\n" + reader.ReadToEnd()
            .Replace("{options}\n", $"{Usage(command)}\n{Table(Rows(command))}\n", StringComparison.Ordinal)
            .Replace(
                "{commands}\n",
                Table(command.Subcommands.Select(sub => ($"asfound {sub.Name}", sub.Description!))) + "\n",
                StringComparison.Ordinal);
    }

    /// <summary>Shows the page of the command that was typed.</summary>
    /// <param name="terminal">Where.</param>
    /// <param name="parsed">What was typed.</param>
    internal static int Write(Terminal terminal, ParseResult parsed)
    {
        terminal.Out.Write(Read(parsed.CommandResult.Command));
        return (int)ExitCode.Success;
    }

    private static string Usage(Command command)
    {
        var start = $"{Indent}asfound {command.Name}";
        var line = start;
        var lines = new StringBuilder();
        foreach (var part in command.Arguments
            .Select(Shown)
            .Concat(Options(command).Select(option => option.Required ? Shown(option) : $"[{Shown(option)}]")))
        {
            if (line.Length + 1 + part.Length > Width)
            {
                lines.Append(line).Append('\n');
                line = new string(' ', start.Length);
            }

            line += $" {part}";
        }

        return lines.Append(line).Append('\n').ToString();
    }

    private static IEnumerable<(string Name, string Description)> Rows(Command command) =>
        command.Arguments
            .Select(argument => (argument.Name, argument.Description!))
            .Concat(Options(command).Select(option => (Shown(option), option.Description!)));

    private static IEnumerable<Option> Options(Command command) => command.Options.Where(option => option is not HelpOption);

    private static string Shown(Argument argument) => argument.Arity.MinimumNumberOfValues == 0 ? $"[{argument.Name}]" : argument.Name;

    private static string Shown(Option option) => option.HelpName is { } value ? $"{option.Name} {value}" : option.Name;

    private static string Table(IEnumerable<(string Name, string Description)> rows)
    {
        var all = rows.ToList();
        var column = Indent.Length + all.Select(row => row.Name.Length).DefaultIfEmpty().Max() + 2;
        var table = new StringBuilder();
        foreach (var (name, description) in all)
        {
            var left = $"{Indent}{name}";
            foreach (var line in description.ReplaceLineEndings("\n").Split('\n').SelectMany(line => Wrapped(line, Width - column)))
            {
                table.Append(left.PadRight(column)).Append(line).Append('\n');
                left = "";
            }
        }

        return table.ToString();
    }

    // A line that lists a value and its meaning goes on under the meaning.
    private static IEnumerable<string> Wrapped(string text, int width)
    {
        var hang = text.StartsWith(Indent, StringComparison.Ordinal) ? text.TrimStart().IndexOf(Indent, StringComparison.Ordinal) : -1;
        var margin = hang < 0 ? 0 : text.Length - text[(Indent.Length + hang)..].TrimStart().Length;
        while (text.Length > width)
        {
            var cut = text.LastIndexOf(' ', width);
            yield return text[..cut];
            text = new string(' ', margin) + text[(cut + 1)..];
        }

        yield return text;
    }
}
