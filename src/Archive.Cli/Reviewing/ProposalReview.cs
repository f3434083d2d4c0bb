using System.Collections.Immutable;
using System.Text;
using System.Text.Json;
using Archive.Cli.Options;
using Archive.Cli.Output;
using Archive.Cli.Preview;
using Archive.Diagnostics.Rendering;
using Archive.Proposals;
using Archive.Records.Facts;
using Archive.Records.Model;
using Archive.Storage;

namespace Archive.Cli.Reviewing;

/// <summary>
/// Shows proposals, takes decisions, and writes what was accepted and nothing else. Every command that proposes facts ends here.
/// </summary>
internal static class ProposalReview
{
    /// <summary>How proposals can be written.</summary>
    internal static readonly string[] Formats = ["text", "json"];

    private static readonly JsonSerializerOptions Json = new() { WriteIndented = true, NewLine = "\n", Encoder = JsonText.Alone };

    /// <summary>Shows proposals and carries out the decisions of the command line.</summary>
    /// <param name="folder">The archive, as it was when the proposals were found.</param>
    /// <param name="root">Its full path.</param>
    /// <param name="prefix">What is before paths of the archive in messages.</param>
    /// <param name="write">Writes the files of what was accepted; null to change them as they are.</param>
    /// <param name="pictureOf">Full path of the picture that a fact comes from; null where there are none.</param>
    /// <param name="cutoutOf">The print that a fact was read from, as a JPEG; null where there is none.</param>
    /// <param name="drawing">Makes an SVG of all proposals together, shown on the page; null for none.</param>
    /// <param name="isQuiet">Whether the proposals were shown already, in another form.</param>
    /// <exception cref="WrongCommandLineException">A word names no proposal, or the review file cannot be read.</exception>
    internal static ExitCode Run(
        Arguments arguments,
        Terminal terminal,
        IArchiveFolder folder,
        string root,
        string prefix,
        ImmutableArray<Proposal> proposals,
        Func<ProposedChanges, FileChangeOutcome>? write = null,
        Func<ProposalOrigin, string?>? pictureOf = null,
        Func<ProposalOrigin, byte[]?>? cutoutOf = null,
        bool isQuiet = false,
        Func<byte[]>? drawing = null,
        CancellationToken cancellation = default)
    {
        write ??= changes => FileChanges.Write(root, changes.Files);
        if (arguments.Get(ReviewOptions.Page))
        {
            var session = new ReviewSession(root, proposals, write, pictureOf ?? (_ => null), cutoutOf ?? (_ => null), drawing);
            return PreviewRun.Serve(arguments, terminal, session, cancellation);
        }

        var accepted = Named(proposals, arguments.Get(ReviewOptions.Accept), "--accept");
        var rejected = Named(proposals, arguments.Get(ReviewOptions.Reject), "--reject");
        if (accepted.Intersect(rejected).FirstOrDefault() is { } both) throw DecidedTwice(both);
        var decided = accepted.ToDictionary(id => id, _ => new Decided(Decision.Accept), StringComparer.Ordinal);
        foreach (var id in rejected) decided[id] = new Decided(Decision.Reject);
        if (arguments.Get(ReviewOptions.Review) is { } file)
        {
            if (!File.Exists(file)) return Begin(file, proposals, terminal);
            foreach (var (id, decision) in Decisions(file, proposals))
            {
                if (decided.TryGetValue(id, out var other) && other != decision) throw DecidedTwice(id);
                decided[id] = decision;
            }
        }

        var isJson = arguments.Get(ReviewOptions.Format) == "json";
        if (decided.Count == 0)
        {
            if (isJson) WriteJson(terminal.Out, proposals);
            else if (!isQuiet) WriteText(terminal.Out, prefix, proposals);
            terminal.Out.Flush();
            terminal.Error.Write($"{Closing(proposals)}\n");
            if (proposals.Any(proposal => proposal.IsOpen)) terminal.Error.Write(
                "Nothing was written. --accept new, --accept all, or --accept and ids; --review FILE for a file to decide in.\n");
            return ExitCode.Success;
        }

        return Write(terminal, folder, root, prefix, proposals, decided, write);
    }

    private static WrongCommandLineException DecidedTwice(string id) =>
        new($"{id} is decided in two ways", "decide for one");

    private static ImmutableHashSet<string> Named(ImmutableArray<Proposal> proposals, string? words, string option)
    {
        if (words is null) return [];
        var (ids, unknown) = ReviewDecisions.Named(proposals, words.Split([',', ' '], StringSplitOptions.RemoveEmptyEntries));
        return unknown is [var first, ..]
            ? throw new WrongCommandLineException(
                $"{option}: {first} names nothing that waits for a decision",
                "see the proposals without --accept and --reject; a contradiction is named by its whole id, such as C-0417:length")
            : ids;
    }

    private static ExitCode Begin(string file, ImmutableArray<Proposal> proposals, Terminal terminal)
    {
        var text = Encoding.UTF8.GetBytes(ReviewDecisions.Text(proposals));
        WholeFile.Replace(Path.GetFullPath(file), stream => stream.Write(text));
        terminal.Error.Write(
            $"{Closing(proposals)}\nDecide in {VisibleText.From(file)}, then run the same command again. Nothing else was written.\n");
        return ExitCode.Success;
    }

    private static ImmutableDictionary<string, Decided> Decisions(string file, ImmutableArray<Proposal> proposals)
    {
        try
        {
            return ReviewDecisions.Read(proposals, File.ReadAllText(file));
        }
        catch (ReviewTextException wrong)
        {
            throw new WrongCommandLineException($"{file}, {wrong.Message}", "correct the line, or delete the file to make it again");
        }
    }

    private static ExitCode Write(
        Terminal terminal,
        IArchiveFolder folder,
        string root,
        string prefix,
        ImmutableArray<Proposal> proposals,
        Dictionary<string, Decided> decided,
        Func<ProposedChanges, FileChangeOutcome> write)
    {
        var (accepted, rejected, replaced) = Corrections.Resolve(
            folder, [.. proposals.Where(proposal => decided.ContainsKey(proposal.Id)).Select(one => (one, decided[one.Id]))]);
        var changes = AcceptedProposals.Apply(folder, accepted);
        var remembered = Rejections.Remember(folder, [.. rejected, .. replaced]);
        var outcome = write(changes);
        if (remembered is not null && outcome.Refused.IsEmpty)
        {
            var rest = FileChanges.Write(root, [remembered]);
            outcome = new FileChangeOutcome([.. outcome.Written, .. rest.Written], rest.Refused);
        }

        foreach (var (proposal, why) in changes.Refused) terminal.Out.Write($"{VisibleText.From($"{proposal.Id}: not written: {why}")}\n");
        foreach (var (path, why) in outcome.Refused) terminal.Out.Write($"{VisibleText.From($"{prefix}{path}: not written: {why}")}\n");
        foreach (var path in outcome.Written) terminal.Out.Write($"{VisibleText.From(prefix + path)}\n");
        terminal.Out.Flush();
        if (!outcome.Refused.IsEmpty)
        {
            return terminal.Complain(
                ExitCode.OutsideFailed,
                outcome.Written.IsEmpty ? "nothing was written" : "not all files could be written",
                "run the command again: it begins with the files as they are now");
        }

        var left = proposals.Count(proposal => proposal.IsOpen) - changes.Written.Length - rejected.Length;
        terminal.Error.Write(
            $"{ResultWriter.Number(changes.Written.Length, "fact")} written, {rejected.Length} rejected, {left} left for later.\n"
            + (changes.Written.IsEmpty ? "" : "Check the record: asfound check\n"));
        return changes.Refused.IsEmpty ? ExitCode.Success : ExitCode.RecordHasErrors;
    }

    private static string Closing(ImmutableArray<Proposal> proposals)
    {
        var open = proposals.Where(proposal => proposal.IsOpen).ToList();
        var kinds = open.GroupBy(proposal => proposal.Kind).OrderBy(kind => kind.Key);
        var said = string.Join(", ", kinds.Select(kind => $"{kind.Count()} {Word(kind.Key)}"));
        var same = proposals.Count(proposal => proposal is { Kind: ProposalKind.Confirmation, IsChange: false });
        var unplaced = proposals.Count(proposal => proposal.Kind == ProposalKind.Unplaced);
        var rejected = proposals.Count(proposal => proposal is { IsChange: true, IsRejected: true });
        return (open.Count == 0 ? "Nothing new is proposed" : $"{ResultWriter.Number(open.Count, "proposal")}: {said}")
            + (same > 0 ? $"; {same} say what the record says" : "")
            + (unplaced > 0 ? $"; {unplaced} cannot be placed" : "")
            + (rejected > 0 ? $"; {rejected} rejected before" : "") + ".";
    }

    private static string Word(ProposalKind kind) => kind switch
    {
        ProposalKind.Unplaced => "cannot be placed",
        _ => kind.ToString().ToLowerInvariant(),
    };

    private static void WriteText(TextWriter to, string prefix, ImmutableArray<Proposal> proposals)
    {
        foreach (var record in proposals.Where(proposal => proposal.IsOpen || proposal.Kind == ProposalKind.Unplaced)
            .GroupBy(proposal => proposal.Fact.RecordId))
        {
            var first = record.First();
            var noun = first.Fact.RecordKind?.Noun() ?? "archive.yaml";
            var where = first.File is { } file ? $", {prefix}{file}" : "";
            to.Write($"{VisibleText.From($"{record.Key} ({(first.IsNewRecord ? "new " : "")}{noun}{where})")}\n");
            string[][] rows = [.. record.Select(proposal => (string[])
            [
                Word(proposal.Kind), proposal.Fact.Key, Said(proposal), Now(proposal), string.Join("; ", proposal.Origins),
            ])];
            var widths = Enumerable.Range(0, 4).Select(column => rows.Max(row => row[column].Length)).ToArray();
            foreach (var row in rows)
            {
                var cells = row.Select((cell, column) => column < 4 ? cell.PadRight(widths[column]) : cell);
                to.Write($"  {VisibleText.From(string.Join("  ", cells).TrimEnd())}\n");
            }

            to.Write("\n");
        }
    }

    private static string Said(Proposal proposal) => Short(proposal.Fact.Value.Text)
        + (proposal.Fact.Evidence is { IsEmpty: false } evidence
            ? $" ({string.Join(' ', evidence.Entries.Select(entry => entry.Value))})"
            : "");

    private static string Now(Proposal proposal) => proposal switch
    {
        { Why: { } why } => why,
        { Current: { } current } when proposal.Kind != ProposalKind.Confirmation => $"now {Short(current.Text)}",
        { Fact.Hint: { } hint } => hint,
        _ => "",
    };

    private static string Short(string text) => (text.Length > 60 ? text[..59] + "…" : text).ReplaceLineEndings(" ");

    private static void WriteJson(TextWriter to, ImmutableArray<Proposal> proposals) => to.Write(JsonSerializer.Serialize(
        new
        {
            proposals = proposals.Select(proposal => new
            {
                id = proposal.Id,
                kind = proposal.Kind.ToString().ToLowerInvariant(),
                record = proposal.Fact.RecordId,
                record_kind = proposal.Fact.RecordKind?.Noun(),
                is_new_record = proposal.IsNewRecord,
                file = proposal.File,
                key = proposal.Fact.Key,
                value = proposal.Fact.Value.Text,
                evidence = proposal.Fact.Evidence is { IsEmpty: false } evidence ? Shape(evidence) : null,
                current = proposal.Current is { } current
                    ? new
                    {
                        value = current.Text,
                        evidence = current.Evidence.IsEmpty ? null : Shape(current.Evidence),
                        line = current.Span.Source.PositionOf(current.Span.Start).Line + 1,
                    }
                    : null,
                why = proposal.Why,
                runner_up = proposal.Fact.RunnerUp,
                hint = proposal.Fact.Hint,
                changes_record = proposal.IsChange,
                rejected_before = proposal.IsRejected,
                origins = proposal.Origins.Select(origin => new
                {
                    file = origin.File,
                    sha256 = origin.Sha256,
                    cell = origin.Cell,
                    box = origin.Box is { } box ? new[] { box.Left, box.Top, box.Width, box.Height } : null,
                    text = origin.Text,
                }),
            }),
        },
        Json) + "\n");

    private static Dictionary<string, string> Shape(FactEvidence evidence) =>
        evidence.Entries.ToDictionary(entry => entry.Key, entry => entry.Value);
}
