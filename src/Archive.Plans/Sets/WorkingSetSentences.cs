using Archive.Records.Terms;
using Archive.Records.Wording;
using Archive.Wiring.Sets;

namespace Archive.Plans.Sets;

/// <summary>What a working set says in words.</summary>
public static class WorkingSetSentences
{
    /// <summary>What comes of a set, in a sentence.</summary>
    /// <param name="context">What it was calculated from.</param>
    public static string Describe(WorkingSet set, PlanContext context)
    {
        if (!set.IsMet)
            return $"{set.Display.Title} has no working set: the needs of {set.Unmet[^1].Of.Id} cannot be met, because {Plain(set.Unmet[^1].Why)}.";
        var text = new UnitFormatter(context.Record.Statement.Units?.Value ?? DisplayUnits.Metric);
        var weight = set.Figures.Weight.Lacking.Length == set.Frames.Length
            ? ""
            : $", {text.Format(set.Figures.Weight.Known)}{(set.Figures.Weight.Lacking.IsEmpty ? "" : $", not including {Phrase.Count(set.Figures.Weight.Lacking.Length, "frame")} of unknown weight")}";
        return $"{set.Display.Title} runs with {Phrase.Count(set.Frames.Length, "frame")}{weight}; {Phrase.Count(set.Inside.Length, "cable is", "cables are")} inside, {Phrase.Count(set.Edge.Length)} {(set.Edge.Length == 1 ? "has" : "have")} one end outside.{(set.IsProven ? "" : " It is not proved that no smaller set would do.")}";
    }

    /// <summary>Current at each voltage; empty where none is recorded.</summary>
    /// <param name="text">Writes quantities.</param>
    public static string Currents(SetTotals figures, UnitFormatter text) =>
        string.Join(", ", figures.Currents.Select(at => $"{text.Format(at.Current)} at {text.Format(at.Potential)}"));

    /// <summary>
    /// Heat at each voltage: one frame's heat is another's supply, so that no sum would be true. Empty where no current is recorded.
    /// </summary>
    /// <param name="text">Writes quantities.</param>
    public static string Heat(SetTotals figures, UnitFormatter text) =>
        string.Join(", ", figures.Currents.Select(at =>
            UnitFormatter.Heat(at.Heat) + (figures.Currents.Length > 1 ? $" at {text.Format(at.Potential)}" : "")));

    /// <summary>A clause without the marks around names.</summary>
    public static string Plain(string clause) => clause.Replace("`", "", StringComparison.Ordinal);
}
