using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using UnitsNet;

namespace Archive.Records.Checks;

/// <summary>
/// AF1507: weights, currents, sizes and what else is measured lie within wide limits, and parts are no larger than the whole.
/// </summary>
/// <remarks>Linear in the record.</remarks>
internal static class QuantityChecks
{
    // Positions are measured by tape, one above the other: errors add up.
    private static readonly Length TapeError = Length.FromMillimeters(150);

    public static IEnumerable<Diagnostic> AreBelievable(CheckContext context) =>
        context.Draft.Records.Where(context.IsPresent).SelectMany(record => record switch
        {
            Frame frame => OfFrame(frame),
            CableKind kind => OfKind(kind),
            Tray tray => OfTray(tray),
            Hall hall => OfHall(hall),
            _ => [],
        }).OfType<Diagnostic>();

    private static IEnumerable<Diagnostic?> OfFrame(Frame frame)
    {
        var noun = $"of frame `{frame.Id}`";
        yield return Judge(frame.Weight, weight => weight.Kilograms, FactLimits.FrameWeight, "weight", noun);
        yield return Judge(frame.Size, size => size.Width.Millimeters, FactLimits.FrameWidth, "width", noun)
            ?? Judge(frame.Size, size => size.Depth.Millimeters, FactLimits.FrameDepth, "depth", noun)
            ?? Judge(frame.Size, size => size.Height.Millimeters, FactLimits.FrameHeight, "height", noun);
        foreach (var draw in frame.Draws)
        {
            yield return Judge(draw.Volts, volts => Math.Abs((double)volts.Volts), FactLimits.Volts, "voltage", noun);
            yield return Judge(draw.Amps, amps => (double)amps.Amperes, FactLimits.Amps, "current", noun);
        }

        foreach (var position in frame.Positions)
        {
            var place = $"of position `{position.Id.Value}` {noun}";
            yield return Judge(position.Height, height => height.Millimeters, FactLimits.PositionHeight, "height", place)
                ?? AboveTop(frame, position);
        }
    }

    private static Diagnostic? AboveTop(Frame frame, Position position)
    {
        if (frame.Size is not { } size || position.FromFloor is not { } floor) return null;
        var top = floor.Value + (position.Height?.Value ?? Length.Zero);
        return top <= size.Value.Height + TapeError
            ? null
            : DiagnosticDescriptors.QuantityUnlikely.At(
                floor.Span,
                $"position `{position.Id.Value}` of frame `{frame.Id}` reaches {Millimetres(top)} above the floor, but the frame only {Millimetres(size.Value.Height)}",
                $"check both; {AcceptedWarnings.Help(DiagnosticDescriptors.QuantityUnlikely)}",
                new Related(size.Span, "the frame's size"));
    }

    private static IEnumerable<Diagnostic?> OfKind(CableKind kind)
    {
        var noun = $"of cable kind `{kind.Id}`";
        var diameter = Judge(kind.Diameter, length => length.Millimeters, FactLimits.Diameter, "diameter", noun);
        var mass = Judge(kind.Mass, each => each.KilogramsPerMeter, FactLimits.CableMass, "mass", noun);
        yield return diameter;
        yield return mass;
        if (diameter is not null || mass is not null || kind.Diameter is not { Value.Meters: > 0 and var across } outer) yield break;
        var section = Math.PI / 4 * across * across;
        var density = Judge(
            kind.Mass,
            each => each.KilogramsPerMeter / section,
            FactLimits.Density,
            "mass",
            $"per volume {noun}, which is {outer.Span.Text} thick,");
        yield return density;
        if (kind.Gauge is not { } gauge) yield break;
        var copper = gauge.Value.Section.SquareMeters * (2 * (kind.Pairs?.Value ?? 0) is > 0 and var wires ? wires : 1);
        if (copper <= section) yield break;
        yield return DiagnosticDescriptors.QuantityUnlikely.At(
            gauge.Span,
            $"the conductors {noun} have a larger section than the whole cable, which is {outer.Span.Text} thick",
            $"check `gauge`, `pairs` and `diameter`; {AcceptedWarnings.Help(DiagnosticDescriptors.QuantityUnlikely)}",
            new Related(outer.Span, "its diameter"));
    }

    private static IEnumerable<Diagnostic?> OfTray(Tray tray)
    {
        var noun = $"of tray `{tray.Id}`";
        var run = tray.Path.Zip(tray.Path.Skip(1), (from, to) => Math.Sqrt(Math.Pow(to.X - from.X, 2) + Math.Pow(to.Y - from.Y, 2))).Sum();
        if (tray.PathSpan is { } path && run < FactLimits.TrayRun.Least)
        {
            yield return DiagnosticDescriptors.QuantityUnlikely.At(
                path.Slice(0, 1), $"the path {noun} is {Number(run)} mm long", $"coordinates are in millimetres: {Number(run * 1000)}?");
        }

        yield return Judge(tray.Height, height => height.Millimeters, FactLimits.TrayHeight, "height", noun);
        yield return Judge(tray.Size, size => size.Width.Millimeters, FactLimits.TrayWidth, "width", noun)
            ?? Judge(tray.Size, size => size.Depth.Millimeters, FactLimits.TrayDepth, "depth", noun);
    }

    private static IEnumerable<Diagnostic?> OfHall(Hall hall)
    {
        var noun = $"of hall `{hall.Id}`";
        yield return Judge(hall.Ceiling, height => height.Millimeters, FactLimits.Ceiling, "ceiling", noun);
        yield return Judge(hall.FloorRating, load => load.Kilopascals, FactLimits.FloorRating, "floor rating", noun);
        if (hall.Outline is not { } outline) yield break;
        var (width, depth) = HallScale.Sides(outline);
        if ((FactLimits.HallSide.Judge(Math.Min(width, depth)) ?? FactLimits.HallSide.Judge(Math.Max(width, depth))) is not { } wrong)
            yield break;
        yield return DiagnosticDescriptors.QuantityUnlikely.At(
            outline.Span.Slice(0, 1),
            $"the outline {noun} is {Number(width)} mm by {Number(depth)} mm: one side {wrong}",
            HallScale.IsInMetres(outline)
                ? $"coordinates are in millimetres: {Number(width * 1000)} by {Number(depth * 1000)}?"
                : $"coordinates are in millimetres; {AcceptedWarnings.Help(DiagnosticDescriptors.QuantityUnlikely)}");
    }

    private static Diagnostic? Judge<T>(Stated<T>? stated, Func<T, double> number, FactLimit limit, string what, string whose) =>
        stated is { } fact && limit.Judge(number(fact.Value)) is { } wrong
            ? DiagnosticDescriptors.QuantityUnlikely.At(
                fact.Span,
                $"the {what} {whose} {wrong}",
                $"check the number and its unit: {limit.Why}; {AcceptedWarnings.Help(DiagnosticDescriptors.QuantityUnlikely)}")
            : null;

    private static string Millimetres(Length length) => Number(length.Millimeters) + " mm";

    private static string Number(double value) => Math.Round(value).ToString("0", System.Globalization.CultureInfo.InvariantCulture);
}
