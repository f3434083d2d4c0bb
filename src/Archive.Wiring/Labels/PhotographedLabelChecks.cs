using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Collecting;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;

namespace Archive.Wiring.Labels;

/// <summary>Labels read in photos, compared with what was seen and recorded.</summary>
public static class PhotographedLabelChecks
{
    /// <summary>Compares them.</summary>
    /// <param name="readings">The labels of the record as read; not asked for where photos show none.</param>
    /// <returns>A warning at each reading that contradicts the record, unless cable or region has a note; in
    /// <see cref="Diagnostic.Order"/>.</returns>
    public static ImmutableArray<Diagnostic> Check(ArchiveModel record, Func<LabelReadings> readings)
    {
        if (!ShownLabel.In(record).Any()) return [];
        var found = new DiagnosticList();
        foreach (var shown in readings().Photographed)
        {
            var cable = shown.Label.Cable;
            if (!shown.Label.IsContradiction || cable.Note is not null || shown.Region.Note is not null) continue;
            found.Add(DiagnosticDescriptors.PhotographedLabelContradicts.At(
                shown.Region.Reads!.Value.Span,
                $"cable `{cable.Id}`: {shown.Label.Why}",
                "look at the photo and at the cable: correct what is wrong, or write a `note` of what was seen",
                [.. cable.Label is { } label ? [new Related(label.Span, "the label was recorded here")] : Array.Empty<Related>()]));
        }

        return [.. found.All.Order(Diagnostic.Order)];
    }
}
