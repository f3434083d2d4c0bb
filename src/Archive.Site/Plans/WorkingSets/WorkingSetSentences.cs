using Archive.Records;
using Archive.Wiring;

namespace Archive.Site;

/// <summary>What a working set says in words.</summary>
internal static class WorkingSetSentences
{
    /// <summary>What comes of a set, in a sentence.</summary>
    /// <param name="set">The set.</param>
    /// <param name="basis">What it was calculated from.</param>
    public static string Of(WorkingSet set, PlanBasis basis)
    {
        if (!set.IsMet) return $"{set.Display.Title} has no working set: the needs of {set.Unmet[^1].Of.Id} cannot be met, because {Plain(set.Unmet[^1].Why)}.";
        var text = new QuantityText(basis.Record.Statement.Units?.Value ?? UnitChoice.Metric);
        var weight = set.Figures.Weight.Lacking.Length == set.Frames.Length ? "" : $", {text.Of(set.Figures.Weight.Known)}{(set.Figures.Weight.Lacking.IsEmpty ? "" : $", {Words.Count(set.Figures.Weight.Lacking.Length)} of them of unknown weight")}";
        return $"{set.Display.Title} runs with {Words.Count(set.Frames.Length, "frame")}{weight}; {Words.Count(set.Inside.Length, "cable is", "cables are")} inside, {Words.Count(set.Edge.Length)} {(set.Edge.Length == 1 ? "has" : "have")} one end outside.{(set.IsProven ? "" : " It is not proved that no smaller set would do.")}";
    }

    /// <summary>Current at each voltage; empty where none is recorded.</summary>
    /// <param name="figures">The figures.</param>
    /// <param name="text">Writes quantities.</param>
    public static string Currents(SetFigures figures, QuantityText text) =>
        string.Join(", ", figures.Currents.Select(at => $"{text.Of(at.Current)} at {text.Of(at.Potential)}"));

    /// <summary>Heat at each voltage: one frame's heat is another's supply, so that no sum would be true. Empty where no current is recorded.</summary>
    /// <param name="figures">The figures.</param>
    /// <param name="text">Writes quantities.</param>
    public static string Heat(SetFigures figures, QuantityText text) =>
        string.Join(", ", figures.Currents.Select(at => QuantityText.Heat(at.Heat) + (figures.Currents.Length > 1 ? $" at {text.Of(at.Potential)}" : "")));

    /// <summary>A clause without the marks around names.</summary>
    /// <param name="clause">The clause.</param>
    public static string Plain(string clause) => clause.Replace("`", "", StringComparison.Ordinal);
}
