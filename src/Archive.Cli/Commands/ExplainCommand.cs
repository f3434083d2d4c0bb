using Archive.Diagnostics;

namespace Archive.Cli;

/// <summary><c>asfound explain</c>: the documentation of a fault's code.</summary>
internal static class ExplainCommand
{
    internal static ExitCode Run(Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        if (arguments.Code is not { } code)
        {
            foreach (var kind in Faults.All) terminal.Out.Write($"{kind.Code}  {kind.Severity.ToString().ToLowerInvariant(),-8} {kind.Title}\n");
            return ExitCode.Well;
        }

        if (Faults.Of(code) is not { } known)
        {
            var near = NearestName.Of(code.ToUpperInvariant(), Faults.All.Select(kind => kind.Code));
            throw new WrongCommandLineException($"unknown code: {code}", near is null ? "asfound explain lists all of them" : $"did you mean {near}; asfound explain lists all of them");
        }

        terminal.Out.Write(FaultPage.Of(known.Code) ?? $"# {known.Code}: {known.Title}\n");
        return ExitCode.Well;
    }
}
