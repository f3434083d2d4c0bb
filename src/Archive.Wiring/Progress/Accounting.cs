using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Wiring.Journeys;

namespace Archive.Wiring.Progress;

/// <summary>What can be said of where a thing is. Everything is in exactly one of these.</summary>
public enum Account
{
    /// <summary>Where it was found, or not moved since.</summary>
    Found,

    /// <summary>Taken out, and neither packed nor loaded.</summary>
    TakenOut,

    /// <summary>In a box that has not left.</summary>
    Packed,

    /// <summary>Loaded, itself or its box, and not seen at any place since.</summary>
    Loaded,

    /// <summary>Arrived; in a box, that box was not opened since, and answers for it.</summary>
    Arrived,

    /// <summary>Its box arrived and was opened, and no event says that it came out.</summary>
    ToBeFound,

    /// <summary>Out of its box, and not back in its place.</summary>
    Unpacked,

    /// <summary>Back in its place: set up, laid, connected, or in its slot.</summary>
    PutBack,

    /// <summary>Looked for and not found.</summary>
    Missing,
}

/// <summary>How many things of a kind are accounted for in which way.</summary>
/// <param name="Counts">How many of each <see cref="Account"/>, in its order.</param>
public sealed record AccountLine(RecordKind Kind, ImmutableArray<int> Counts)
{
    /// <summary>How many there are.</summary>
    public int Total => Counts.Sum();

    /// <summary>How many are accounted for in one way.</summary>
    public int this[Account account] => Counts[(int)account];
}

/// <summary>Where everything is that was found: frames, cables, units, pieces and boxes alike.</summary>
public sealed class Accounting
{
    private static readonly ImmutableArray<RecordKind> Kinds =
        [RecordKind.Frame, RecordKind.Cable, RecordKind.Unit, RecordKind.Piece, RecordKind.Box];

    private Accounting(ImmutableArray<AccountLine> lines, ImmutableArray<Journey> open) => (Lines, Open) = (lines, open);

    /// <summary>A line for each kind that the record has.</summary>
    public ImmutableArray<AccountLine> Lines { get; }

    /// <summary>
    /// What someone has to look for: missing, not yet unpacked from an opened box, or loaded and not seen since; by that.
    /// </summary>
    public ImmutableArray<Journey> Open { get; }

    /// <summary>How a thing is accounted for.</summary>
    public static Account Of(Journey journey) => journey.Situation switch
    {
        _ when journey.IsToBeFound => Account.ToBeFound,
        Situation.AsFound or Situation.Disconnected => Account.Found,
        Situation.Packed => Account.Packed,
        Situation.OnTheRoad => Account.Loaded,
        Situation.Arrived => Account.Arrived,
        Situation.Unpacked => Account.Unpacked,
        Situation.Stood or Situation.Fixed or Situation.Laid or Situation.Refitted or Situation.Connected => Account.PutBack,
        Situation.Missing => Account.Missing,
        _ => Account.TakenOut,
    };

    /// <summary>Counts everything. Linear in the record.</summary>
    public static Accounting Compute(ArchiveModel record, JourneyIndex journeys)
    {
        var states = Enum.GetValues<Account>().Length;
        var counts = Kinds.ToDictionary(kind => kind, _ => new int[states]);
        foreach (var journey in journeys.All)
        {
            if (counts.TryGetValue(journey.Of.RecordKind, out var of)) of[(int)Of(journey)]++;
        }

        // What nothing happened to has no journey, and is where it was found.
        foreach (var (kind, of) in counts)
            of[(int)Account.Found] += record.All(kind).Count(each => !each.IsWithdrawn) - of.Sum();
        return new Accounting(
            [.. Kinds.Select(kind => new AccountLine(kind, [.. counts[kind]])).Where(line => line.Total > 0)],
            [.. journeys.All
                .Where(journey => Of(journey) is Account.Missing or Account.ToBeFound or Account.Loaded)
                .OrderByDescending(Of)]);
    }
}
