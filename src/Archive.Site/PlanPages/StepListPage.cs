using System.Collections.Immutable;
using Archive.Markup.Links;
using Archive.Markup.Text;
using Archive.Plans.Safety;
using Archive.Site.Layout;
using Archive.Site.Parts;

namespace Archive.Site.PlanPages;

/// <summary>
/// A work list in one document: compact on paper, with a box to tick and columns to fill in; on a phone one step per screen.
/// </summary>
/// <param name="Head">Title, address and the way there.</param>
public sealed record StepListPage(PageHead Head) : PageView(Head)
{
    /// <summary>The list with links and details, of which this is the whole.</summary>
    public required Link List { get; init; }

    /// <summary>What it holds, in sentences: the first says it in one line.</summary>
    public required ImmutableArray<string> Says { get; init; }

    /// <summary>What can hurt here, in full once.</summary>
    public required ImmutableArray<Caution> Cautions { get; init; }

    /// <summary>What steps say in short on paper, in full once.</summary>
    public required ImmutableArray<StepNote> Notes { get; init; }

    /// <summary>What steps are about: the head of their column.</summary>
    public required string Things { get; init; }

    /// <summary>The steps that are left, under their headings.</summary>
    public required ImmutableArray<RowGroup<ListedStep>> Groups { get; init; }

    /// <summary>What the ticks of this list are kept under on a device.</summary>
    public required string Ticks { get; init; }

    /// <summary>Which document of a very long list this is.</summary>
    public required PageOfList Sheet { get; init; }
}

/// <summary>Something that several steps say in short.</summary>
/// <param name="Lead">How steps say it.</param>
/// <param name="Text">What it means.</param>
public sealed record StepNote(string Lead, HtmlFragment Text);

/// <summary>A step of a list.</summary>
/// <param name="Number">Its number, unique in the list.</param>
/// <param name="Of">What it is about.</param>
/// <param name="Prints">What is to be read on it.</param>
/// <param name="Does">What to do.</param>
public sealed record ListedStep(int Number, RecordLink Of, ImmutableArray<string> Prints, ImmutableArray<CrewText> Does)
{
    /// <summary>What is done, in a word or two; empty where all steps are alike.</summary>
    public string Action { get; init; } = "";

    /// <summary>What its tick is kept under, unique in the list.</summary>
    public string Key { get; init; } = Of.Id;

    /// <summary>What to watch out for, the worst first.</summary>
    public ImmutableArray<ListedWarning> Warnings { get; init; } = [];

    /// <summary>What it waits for; nothing where the record shows no obstacle.</summary>
    public HtmlFragment State { get; init; } = HtmlFragment.None;

    /// <summary>The same in short.</summary>
    public HtmlFragment Waits { get; init; } = HtmlFragment.None;
}

/// <summary>A warning at a step of a list.</summary>
/// <param name="Line">The warning.</param>
/// <param name="IsNoted">Whether the list says it in full once, so that its first words do on paper.</param>
public sealed record ListedWarning(WarningLine Line, bool IsNoted);
