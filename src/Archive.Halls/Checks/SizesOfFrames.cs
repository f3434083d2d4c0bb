using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Halls.Layout;

namespace Archive.Halls.Checks;

/// <summary>AF0607: a frame in a row whose size is not recorded; it leaves the frames behind it without a certain place.</summary>
internal static class SizesOfFrames
{
    /// <summary>Reported once a frame, at its first place (the as-found hall's before others).</summary>
    internal static IEnumerable<Diagnostic> Check(HallLayouts layouts, Func<SourceSpan, bool> isHurt) =>
        from place in layouts.Layouts.SelectMany(layout => layout.Whereabouts)
        where !place.Placed.IsSized && !isHurt(place.Placed.Frame.Span)
        group place by place.Placed.Frame.Id into places
        let first = places.First()
        select DiagnosticDescriptors.FrameWithoutSize.At(
            first.Placed.Span,
            $"frame {first.Placed.Frame.Id} stands in row {first.Row.Row.Id.Value}, but its size is not recorded",
            "give it a size (width x depth x height); until then, its place and those of the frames after it in the row are guesses and are not checked",
            new Related(first.Placed.Frame.IdSpan, "the frame without a size"));
}
