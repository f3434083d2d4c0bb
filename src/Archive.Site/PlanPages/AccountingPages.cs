using System.Collections.Immutable;
using Archive.Markup.Links;
using Archive.Plans.Accounts;
using Archive.Plans.Progress;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Site.Contents;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Storage.Output;
using Archive.Wiring.Journeys;
using Archive.Wiring.Progress;

namespace Archive.Site.PlanPages;

/// <summary>What is accounted for.</summary>
public sealed record AccountingPage(PageHead Head) : PageView(Head)
{
    /// <summary>The results, in sentences.</summary>
    public required ImmutableArray<string> Summary { get; init; }

    /// <summary>The ways of being accounted for: what a column is called, and what it means.</summary>
    public required ImmutableArray<AccountColumn> Columns { get; init; }

    /// <summary>The kinds of thing; none on further sheets.</summary>
    public required ImmutableArray<AccountRow> Rows { get; init; }

    /// <summary>What someone has to look for.</summary>
    public required ImmutableArray<RowGroup<OpenRow>> Groups { get; init; }

    public required PageOfList Sheet { get; init; }
}

/// <summary>A way of being accounted for.</summary>
public sealed record AccountColumn(string Name, string Means);

/// <summary>A kind of thing.</summary>
/// <param name="Kind">What one of it is called.</param>
/// <param name="Total">How many there are.</param>
/// <param name="Counts">How many are in each column.</param>
public sealed record AccountRow(string Kind, string Total, ImmutableArray<AccountCell> Counts);

/// <summary>How many things are in a column.</summary>
/// <param name="Name">What the column is called.</param>
/// <param name="Count">How many; empty for none.</param>
public sealed record AccountCell(string Name, string Count);

/// <summary>A thing that someone has to look for.</summary>
/// <param name="Where">How it stands, in words.</param>
/// <param name="Since">The event that says so; null for none.</param>
public sealed record OpenRow(RecordLink Thing, string Where, RecordLink? Since);

/// <summary>Makes the pages of the accounting.</summary>
internal sealed class AccountingPages(SiteContents site, PageFactory pageFactory, RowBuilder rowBuilder, AccountingPlan plan)
{
    /// <summary>All pages.</summary>
    public IEnumerable<OutputFile> All()
    {
        var rows = new GroupedRows<Journey>(
            [.. plan.Accounts.Open.Select(journey => (HeadingOf(Accounting.Of(journey)), journey))],
            AccountingPlan.Kind.Page,
            AccountingPlan.Kind.Folder,
            row => $"{row.Heading.Heading}: {row.Row.Of.Id}",
            size: 300,
            key: journey => journey.Of.Id);
        for (var number = 1; number <= rows.Sheets.Count; number++)
        {
            var sheet = number;
            yield return pageFactory.Page(rows.Sheets.Path(sheet), location => new AccountingPage(
                pageFactory.PlanHead(AccountingPlan.Kind, location))
            {
                Summary = sheet == 1 ? plan.Summary : [],
                Columns = [.. Enum.GetValues<Account>()
                    .Select(account => new AccountColumn(AccountText.Name(account), AccountText.Means(account)))],
                Rows = sheet == 1 ? [.. plan.Accounts.Lines.Select(Row)] : [],
                Groups = rows.On(sheet, journey => new OpenRow(
                    RecordLink.To(journey.Of, location),
                    Phrase.Heading(SituationText.Describe(journey, site.Record)),
                    journey.Since is { } since ? rowBuilder.Record(since.Id, location) : null)),
                Sheet = rows.Sheets.On(sheet, location),
            });
        }
    }

    private static AccountRow Row(AccountLine line) => new(
        line.Kind.Noun(),
        Phrase.Count(line.Total),
        [.. Enum.GetValues<Account>().Select(account => new AccountCell(
            AccountText.Name(account), line[account] == 0 ? "" : Phrase.Count(line[account])))]);

    private static RowHeading HeadingOf(Account account) => account switch
    {
        Account.Missing => new RowHeading("Looked for and not found", "missing"),
        Account.ToBeFound => new RowHeading("To be found in opened boxes", "to-be-found"),
        _ => new RowHeading("Loaded, and not seen since", "loaded"),
    };
}
