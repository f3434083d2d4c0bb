using System.Collections.Immutable;

namespace Archive.Site;

/// <summary>What data files say of warnings.</summary>
internal static class WarningShapes
{
    private static readonly DataShape<StepWarning> Warning = new DataShape<StepWarning>()
        .Text("kind", "feeder, earth, fibre, kind_unknown, out_of_order, earth_before, tag_first, too_short, no_way, label_disagrees, label_wrong, from_print, cut, left_behind, tangled or lay_before", warning => DataValue.Word<WarningKind>(warning.Kind))
        .Text("text", "the warning, as page and terminal say it", warning => warning.Text)
        .Text("at", "address of the end that it is about, as seen or read", warning => warning.At?.ToString())
        .Text("says", "address that print gives for this end", warning => warning.Says?.ToString())
        .Text("hall", "id of the hall that it holds for", warning => warning.Hall)
        .Number("short_by_m", "m", "how much is missing", warning => warning.ShortBy is { } missing ? Math.Round(missing.Meters, 6, MidpointRounding.AwayFromZero) : null)
        .Text("frame", "id of the frame that it is about", warning => warning.Frame)
        .List("cables", "ids of the other cables that it names", warning => warning.Cables);

    /// <summary>The column of warnings.</summary>
    /// <typeparam name="T">The step.</typeparam>
    /// <param name="shape">What data files say of the step.</param>
    /// <param name="warnings">Its warnings.</param>
    public static DataShape<T> Warnings<T>(this DataShape<T> shape, Func<T, ImmutableArray<StepWarning>> warnings) =>
        shape.Entries("warnings", "what to watch out for at this step, the worst first", Warning, step => warnings(step), warning => warning.Text, " ");
}
