using System.Collections.Immutable;
using Archive.Data.Tables;
using Archive.Plans.Progress;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Wiring.Journeys;
using Archive.Wiring.Progress;

namespace Archive.Plans.Accounts;

/// <summary>How many frames, cables, units, pieces and boxes are where, and what someone has to look for.</summary>
public sealed class AccountingPlan : Plan
{
    public static new PlanKind Kind { get; } = new(
        "accounting",
        "Accounting",
        "Of everything that was found, how much is packed, loaded, arrived, unpacked, put back and missing.",
        (context, _) => new AccountingPlan(context));

    private static readonly DataShape<AccountLine> Shape = Enum.GetValues<Account>().Aggregate(
        new DataShape<AccountLine>()
            .Text("kind", "frame, cable, unit, piece or box", line => line.Kind.Noun())
            .Count("total", "how many there are; each is in exactly one of the other columns", line => line.Total),
        (shape, account) => shape.Count(
            DataValue.Word<Account>(account)!, AccountText.Means(account), line => line[account]));

    private static readonly DataShape<Journey> Missing = new DataShape<Journey>()
        .Text("record", "id of the frame, cable, tray, unit, piece or box", journey => journey.Of.Id)
        .Text("account", "missing, to_be_found or loaded", journey => DataValue.Word<Account>(Accounting.Of(journey)))
        .Text("box", "id of the box that it should be in", journey => journey.Box)
        .Text("hall", "id of the hall where it should be", journey => journey.Hall)
        .Text("place", "the place there, or the load, in words", journey => journey.Place)
        .Text("since_event", "id of the event that says so", journey => journey.Since?.Id);

    private AccountingPlan(PlanContext context)
        : base(Kind) => Accounts = Accounting.Compute(context.Record, context.Progress.Journeys);

    /// <summary>What is accounted for.</summary>
    public Accounting Accounts { get; }

    public override ImmutableArray<string> Summary
    {
        get
        {
            int Count(Account account) => Accounts.Lines.Sum(line => line[account]);
            return
            [
                $"Of {Phrase.Count(Accounts.Lines.Sum(line => line.Total), "thing")}, {Phrase.Count(Count(Account.Missing))} {Are(Count(Account.Missing))} missing, {Phrase.Count(Count(Account.ToBeFound))} still to be found in opened boxes, and {Phrase.Count(Count(Account.Loaded))} in transit.",
                "A box that arrived answers for what is in it until something is taken out of it; from then on, each thing answers for itself.",
            ];
        }
    }

    public override ImmutableArray<DataTable> Tables =>
    [
        new DataTable<AccountLine>("plans/accounting", "a kind of thing, and how many of it are where", Shape, Accounts.Lines),
        new DataTable<Journey>("plans/accounting-open", "a thing that someone has to look for", Missing, Accounts.Open),
    ];

    internal override ImmutableArray<string> Shown =>
        ["kind", "total", .. Enum.GetValues<Account>().Select(account => DataValue.Word<Account>(account)!)];

    private static string Are(int count) => count == 1 ? "is" : "are";
}
