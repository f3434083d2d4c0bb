using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Halls.Layout;
using Archive.Halls.Trays.Network;
using Archive.Records.Model;
using NetTopologySuite.Geometries;

namespace Archive.Halls.Checks;

/// <summary>
/// AF0612: a cable whose list begins or ends with a tray that does not come near the frame of that end. Only certain footprints are judged.
/// </summary>
/// <remarks>Linear in cables; each frame is compared with each of its trays once.</remarks>
internal sealed class TraysAtFrames
{
    private readonly Dictionary<(string Frame, string Tray), double> _distances = [];
    private readonly HallLayout _layout;

    private TraysAtFrames(HallLayout layout) => _layout = layout;

    internal static IEnumerable<Diagnostic> Check(ArchiveModel asFound, HallLayouts layouts)
    {
        if (layouts.AsFound is not { } layout) return [];
        var trays = new TraysAtFrames(layout);
        return asFound.Cables
            .Where(cable => !cable.IsWithdrawn && cable.LiesIn.Length > 0 && cable.Ends.Length == 2)
            .SelectMany(cable => trays.Check(asFound, cable));
    }

    private IEnumerable<Diagnostic> Check(ArchiveModel asFound, Cable cable)
    {
        var (first, last) = (asFound.Find<Tray>(cable.LiesIn[0].Value), asFound.Find<Tray>(cable.LiesIn[^1].Value));
        if (IsPlaced(asFound, cable.Ends[0]) is not { } one
            || IsPlaced(asFound, cable.Ends[1]) is not { } other
            || first is null
            || last is null) yield break;
        var isTurned = Serves(first, other) && Serves(last, one);
        if (!Serves(first, one)) yield return Report(cable.LiesIn[0].Span, first, one, isTurned);
        if (!Serves(last, other) && !(isTurned && !Serves(first, one))) yield return Report(cable.LiesIn[^1].Span, last, other, isTurned);
    }

    private Diagnostic Report(SourceSpan span, Tray tray, PlacedFrame placed, bool isTurned) => DiagnosticDescriptors.TrayFarFromFrame.At(
        span,
        $"tray {tray.Id} does not come near frame {placed.Frame.Id}, where the cable ends: its line is {Millimetres.Say(Distance(tray, placed))} from the middle of the frame's top",
        isTurned
            ? "reverse the list: it must begin at the first end"
            : $"name the tray that the cable enters there, or correct the path or the row; a tray serves frames within {Millimetres.Say(ServingTray.Reach)}",
        new Related(tray.PathSpan ?? tray.IdSpan, $"{tray.Id} is here"),
        new Related(placed.Span, $"{placed.Frame.Id} stands here"));

    private PlacedFrame? IsPlaced(ArchiveModel asFound, CableEnd end) =>
        end.At is { } at
            && asFound.FrameAt(at.Value) is { } frame
            && _layout.ByFrame.TryGetValue(frame.Id, out var placed)
            && placed.IsCertain ? placed : null;

    // A tray of another hall, or without a line, is another error.
    private bool Serves(Tray tray, PlacedFrame placed) =>
        !_layout.Has(tray) || Distance(tray, placed) <= ServingTray.Reach + Footprint.Touch;

    private double Distance(Tray tray, PlacedFrame placed)
    {
        var key = (placed.Frame.Id, tray.Id);
        if (_distances.TryGetValue(key, out var known)) return known;
        var middle = placed.Footprint.Centre;
        return _distances[key] = GeometryConversion.Line(tray.Path)?.Distance(new Point(middle.X, middle.Y)) ?? 0;
    }
}
