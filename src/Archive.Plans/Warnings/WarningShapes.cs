using System.Collections.Immutable;
using Archive.Data.Tables;
using Archive.Plans.Safety;

namespace Archive.Plans.Warnings;

/// <summary>What data files say of warnings.</summary>
internal static class WarningShapes
{
    private static readonly DataShape<StepWarning> Warning = new DataShape<StepWarning>()
        .Text(
            "kind",
            "battery, outside_line, feeder, earth, fibre, kind_unknown, fed_twice, hazard, not_ours, earth_before, heavy, keep_upright, units_first, unit_handling, before_power, tag_first, too_short, no_way, label_disagrees, label_wrong, from_print, damaged, end_unknown, length_unknown, cut, left_behind, tangled, lay_before or last_chance",
            warning => DataValue.Word<WarningKind>(warning.Kind))
        .Text("text", "the warning, as pages and terminal show it", warning => warning.Text)
        .Text("at", "address of the end it is about, as seen or as read from a label", warning => warning.At?.ToString())
        .Text("says", "address that the label gives for this end", warning => warning.Says?.ToString())
        .Text("hall", "id of the hall it is about", warning => warning.Hall)
        .Number("short_by_m", "m", "how much too short the cable is", warning =>
            warning.ShortBy is { } missing ? Math.Round(missing.Meters, 6, MidpointRounding.AwayFromZero) : null)
        .Text("frame", "id of the frame it is about", warning => warning.Frame)
        .List("cables", "ids of the other cables it names", warning => warning.Cables);

    /// <summary>The column of cautions: their titles, which pages and terminal show with the whole text.</summary>
    /// <typeparam name="T">The step.</typeparam>
    /// <param name="shape">What data files say of the step.</param>
    public static DataShape<T> Cautions<T>(this DataShape<T> shape, Func<T, ImmutableArray<Caution>> cautions) => shape.List(
        "cautions",
        "what can hurt in this work, in a few words; page and terminal say it in full",
        step => cautions(step).Select(caution => caution.Title),
        "; ");

    /// <summary>The column of cautions that are the same for every line.</summary>
    /// <typeparam name="T">The line.</typeparam>
    /// <param name="shape">What data files say of it.</param>
    public static DataShape<T> Cautions<T>(this DataShape<T> shape, ImmutableArray<Caution> cautions) => shape.Cautions(_ => cautions);

    /// <summary>The column of warnings.</summary>
    /// <typeparam name="T">The step.</typeparam>
    /// <param name="shape">What data files say of the step.</param>
    public static DataShape<T> Warnings<T>(this DataShape<T> shape, Func<T, ImmutableArray<StepWarning>> warnings) =>
        shape.Entries(
            "warnings", "what to watch out for at this step, worst first", Warning, step => warnings(step), warning => warning.Text, " ");
}
