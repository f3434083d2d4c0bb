using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Records.Facts;

namespace Archive.Comparison;

/// <summary>Two states of a record, and what differs.</summary>
/// <param name="From">Name of the earlier state.</param>
/// <param name="To">Name of the later state.</param>
/// <param name="Changes">What differs, by kind and id.</param>
public sealed record ArchiveComparison(string From, string To, ImmutableArray<RecordChange> Changes)
{
    /// <summary>Compares two states.</summary>
    /// <param name="before">The earlier state.</param>
    /// <param name="after">The later state.</param>
    public static ArchiveComparison Compare(ArchiveVersion before, ArchiveVersion after, CancellationToken cancellation)
    {
        var (old, unreadBefore) = RawRecord.All(before.Folder, cancellation);
        var (now, unreadNow) = RawRecord.All(after.Folder, cancellation);
        var (oldWithBytes, nowWithBytes) = OriginalBytes.Add(before, old, after, now, cancellation);
        var changes = RecordComparison.Compare(oldWithBytes, nowWithBytes);
        return new ArchiveComparison(before.Name, after.Name, AuthorLookup.Find(before, after, changes))
        {
            UnreadBefore = unreadBefore,
            Unread = unreadNow
        };
    }

    /// <summary>
    /// Files of the earlier state that could not be read whole, by what is wrong first: what they say may be missing from the comparison.
    /// </summary>
    public ImmutableArray<Diagnostic> UnreadBefore { get; init; } = [];

    /// <summary>The same of the later state.</summary>
    public ImmutableArray<Diagnostic> Unread { get; init; } = [];

    /// <summary>How many records changed in a way.</summary>
    /// <param name="what">The way.</param>
    public int Count(ChangeKind what) => Changes.Count(change => change.What == what);

    /// <summary>The whole in a sentence: <c>1 added, 2 changed, none withdrawn, none gone</c>.</summary>
    public string Summary => string.Join(", ", Enum.GetValues<ChangeKind>().Select(what =>
        $"{(Count(what) is 0 ? "none" : FormattableString.Invariant($"{Count(what):N0}"))} {what.ToString().ToLowerInvariant()}"));
}
