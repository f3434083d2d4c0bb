using System.CommandLine;
using Archive.Cli.Options;
using Archive.Cli.Output;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Diagnostics.Pages;

namespace Archive.Cli.Commands;

/// <summary><c>asfound explain</c>: the documentation of an error's code.</summary>
internal static class ExplainCommand
{
    private static readonly Argument<string> CodeArgument =
        new("CODE") { Arity = ArgumentArity.ZeroOrOne, Description = "which code; without it, all codes are listed" };

    /// <summary>The command and what it takes.</summary>
    internal static Command Create(Terminal terminal) => CommandFactory.Create(
        "explain",
        "what a code means and how to fix it",
        Run,
        terminal,
        CodeArgument);

    internal static ExitCode Run(Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        if (arguments.Get(CodeArgument) is not { } code)
        {
            foreach (var kind in DiagnosticDescriptors.All)
                terminal.Out.Write($"{kind.Code}  {kind.Severity.ToString().ToLowerInvariant(),-8} {kind.Title}\n");
            return ExitCode.Success;
        }

        if (DiagnosticDescriptors.Find(code) is not { } known)
        {
            var near = NearestName.Find(code.ToUpperInvariant(), DiagnosticDescriptors.All.Select(kind => kind.Code));
            throw new WrongCommandLineException(
                $"unknown code: {code}",
                near is null ? "asfound explain lists all of them" : $"did you mean {near}; asfound explain lists all of them");
        }

        terminal.Out.Write(DiagnosticPage.Read(known.Code) ?? $"# {known.Code}: {known.Title}\n");
        return ExitCode.Success;
    }
}
