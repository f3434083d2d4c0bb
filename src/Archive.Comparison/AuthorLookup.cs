using System.Collections.Immutable;
using System.Globalization;
using Archive.Diagnostics;
using Archive.Git;

namespace Archive.Comparison;

/// <summary>
/// Asks git who wrote what differs: of what is said now, the line itself; of what is said no more, the commit that took it out.
/// </summary>
internal sealed class AuthorLookup
{
    // Each asks git to walk the history once; beyond so many, the last commit on the file must do.
    private const int MostSearches = 200;
    private const int LongestLine = 10_000;

    private readonly ArchiveVersion _before;
    private readonly ArchiveVersion _after;
    private readonly GitRepository _repository;
    private readonly Dictionary<string, (Authorship? By, long At)[]?> _lines = new(StringComparer.Ordinal);
    private readonly Dictionary<string, Authorship?> _last = new(StringComparer.Ordinal);
    private int _searches;

    private AuthorLookup(ArchiveVersion before, ArchiveVersion after, GitRepository repository)
    {
        _before = before;
        _after = after;
        _repository = repository;
    }

    /// <summary>Adds who and when to changes, where both states are of one history.</summary>
    /// <param name="before">The earlier state.</param>
    /// <param name="after">The later state.</param>
    internal static ImmutableArray<RecordChange> Find(ArchiveVersion before, ArchiveVersion after, ImmutableArray<RecordChange> changes)
    {
        if (after.Repository is not { } repository) return changes;
        var ask = new AuthorLookup(before, after, repository);
        return [.. changes.Select(change => change with { Facts = [.. change.Facts.Select(fact => fact with { By = ask.Find(fact) })] })];
    }

    private Authorship? Find(FactChange fact) =>
        fact.After is { } now ? OfLines(now.Span) : fact.Before is { } old ? OfRemoval(old.Span) : null;

    // Of a text on many lines, who wrote the newest of them.
    private Authorship? OfLines(SourceSpan span)
    {
        if (!_lines.TryGetValue(span.Path, out var lines)) _lines[span.Path] = lines = Blame(span.Path);
        var (first, last) = (span.From.Line, span.Source.PositionOf(Math.Max(span.Start, span.End - 1)).Line);
        return lines?.Skip(first).Take(last - first + 1).OrderByDescending(line => line.At).FirstOrDefault().By;
    }

    private Authorship? OfRemoval(SourceSpan span)
    {
        if (_before.Commit is not { } from) return null;
        var range = _after.Commit is { } to ? $"{from}..{to}" : $"{from}..HEAD";
        if (++_searches <= MostSearches && Sought(span) is { } line && Log(range, "-S" + line, "--", span.Path) is { } exact) return exact;
        if (!_last.TryGetValue(span.Path, out var last)) _last[span.Path] = last = Log(range, "--", span.Path);
        return last;
    }

    // What a command line can take: no zero, and not a megabyte.
    private static string? Sought(SourceSpan span) => span.Source.Line(span.From.Line) is { Length: > 0 and < LongestLine } line
        && !line.Contains('\0', StringComparison.Ordinal) ? line : null;

    private Authorship? Log(string range, params ReadOnlySpan<string> more)
    {
        var said = _repository.Ask(
            out _, ["log", "-1", "--no-ext-diff", "--no-textconv", "--format=%H%x00%an%x00%as%x00%s", range, .. more]);
        return said?.TrimEnd('\n').Split('\0') is [var commit, var who, var when, var subject]
            ? new Authorship(who, when, commit, subject)
            : null;
    }

    // `git blame --porcelain`: HASH ORIGINAL FINAL [COUNT], what is known of a commit at its first line, then a tab and the line.
    private (Authorship? By, long At)[]? Blame(string path)
    {
        var said = _after.Commit is { } commit
            ? _repository.Ask(out _, "blame", "--no-textconv", "--porcelain", commit, "--", path)
            : _repository.AskOfFile(path, "blame", "--no-textconv", "--porcelain");
        if (said is null) return null;
        var known = new Dictionary<string, (Authorship? By, long At)>(StringComparer.Ordinal);
        var lines = new List<(Authorship? By, long At)>();
        var (hash, who, when, subject, isEdge) = ("", "", 0L, "", false);
        var isShallow = _repository.IsShallow;
        foreach (var line in said.Split('\n'))
        {
            if (line.StartsWith('\t'))
            {
                // Beyond the edge of what was fetched who wrote a line first is not known.
                if (isEdge && isShallow) known[hash] = (null, when);
                else if (!known.ContainsKey(hash)) known[hash] = (hash.All(digit => digit == '0')
                    ? new Authorship("not committed yet", "", "", "")
                    : new Authorship(who, DayOf(when), hash, subject), when);
                lines.Add(known[hash]);
                (hash, isEdge) = ("", false);
            }
            else if (hash.Length == 0) hash = line.Split(' ')[0];
            else if (line == "boundary") isEdge = true;
            else if (line.StartsWith("author ", StringComparison.Ordinal)) who = line["author ".Length..];
            else if (line.StartsWith("author-time ", StringComparison.Ordinal))
                when = long.Parse(line["author-time ".Length..], CultureInfo.InvariantCulture);
            else if (line.StartsWith("summary ", StringComparison.Ordinal)) subject = line["summary ".Length..];
        }

        return [.. lines];
    }

    private static string DayOf(long seconds) =>
        DateTimeOffset.FromUnixTimeSeconds(seconds).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
