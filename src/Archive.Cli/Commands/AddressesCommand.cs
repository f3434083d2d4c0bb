using System.CommandLine;
using Archive.Cli.Options;
using Archive.Cli.Output;
using Archive.Diagnostics.Rendering;
using Archive.Preservation.Permanence;
using Archive.Records.Permanence;

namespace Archive.Cli.Commands;

/// <summary><c>asfound addresses</c>: what is published and not yet in the ledger of addresses, and what would vanish.</summary>
internal static class AddressesCommand
{
    private static readonly Option<bool> WriteOption =
        new("--write") { Description = "add the new addresses to addresses.txt; no line is ever removed" };

    private static readonly Option<bool> CheckOption =
        new("--check") { Description = "fail if a published address is not in addresses.txt; for builds" };

    /// <summary>The command and what it takes.</summary>
    internal static Command Create(Terminal terminal) => CommandFactory.Create(
        "addresses",
        "keep the list of addresses that must always work",
        Run,
        terminal,
        ArchiveOptions.Content,
        WriteOption,
        CheckOption,
        ArchiveOptions.Format);

    internal static ExitCode Run(Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        if (arguments.Get(WriteOption) && arguments.Get(CheckOption))
            throw new WrongCommandLineException("--check writes nothing", "leave out --check or --write");
        var options = CommandOptions.From(arguments);
        var state = AddressLedgerUpdate.Look(options.Order.Content, cancellation);
        if (!state.IsSound)
        {
            ResultWriter.WriteDiagnostics(terminal, options.Format, RenderedDiagnostic.FromAll(state.Diagnostics, options.Order.Prefix));
            terminal.Error.Write($"{AddressLedger.FileName} was not changed.\n");
            return ExitCode.RecordHasErrors;
        }

        if (arguments.Get(CheckOption) && !state.Added.IsEmpty)
        {
            foreach (var address in state.Added) terminal.Out.Write($"{VisibleText.From(address)}\n");
            terminal.Error.Write(
                $"{(state.Added.Length == 1 ? "1 address is" : $"{state.Added.Length:N0} addresses are")} published and not in {AddressLedger.FileName}. Run asfound addresses --write, and commit the file with the record.\n");
            return ExitCode.RecordHasErrors;
        }

        if (!arguments.Get(WriteOption))
        {
            foreach (var address in state.Added) terminal.Out.Write($"{VisibleText.From(address)}\n");
            terminal.Error.Write(
                $"{Addresses(state.Known)} in {AddressLedger.FileName}, {(state.Added.IsEmpty ? "none" : $"{state.Added.Length:N0}")} to be added.\n");
            return ExitCode.Success;
        }

        if (!state.Added.IsEmpty) AddressLedgerUpdate.Write(options.Order.Content, state.Added);
        terminal.Error.Write(
            $"{AddressLedger.FileName}: {(state.Added.IsEmpty ? "nothing to add" : $"{state.Added.Length:N0} added")}, {state.Known + state.Added.Length:N0} in all. Commit it with the record.\n");
        return ExitCode.Success;
    }

    private static string Addresses(int count) => count switch { 0 => "No address", 1 => "1 address", _ => $"{count:N0} addresses" };
}
