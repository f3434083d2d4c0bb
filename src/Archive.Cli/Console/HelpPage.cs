using System.CommandLine;
using System.Reflection;

namespace Archive.Cli;

/// <summary>The pages of <c>Help/</c>, one a command.</summary>
internal static class HelpPage
{
    /// <summary>The tool's version.</summary>
    internal static string Version { get; } =
        typeof(HelpPage).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion.Split('+')[0] ?? "0.0.0";

    /// <summary>The page of a command.</summary>
    /// <param name="command">Its name; <c>asfound</c> for all of them.</param>
    internal static string Of(string command)
    {
        using var stream = typeof(HelpPage).Assembly.GetManifestResourceStream($"help.{command}")!;
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }

    /// <summary>Shows the page of the command that was typed.</summary>
    /// <param name="terminal">Where.</param>
    /// <param name="parsed">What was typed.</param>
    internal static int Write(Terminal terminal, ParseResult parsed)
    {
        terminal.Out.Write(Of(parsed.CommandResult.Command is RootCommand ? "asfound" : parsed.CommandResult.Command.Name));
        return (int)ExitCode.Well;
    }
}
