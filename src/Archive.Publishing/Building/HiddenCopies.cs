using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Photos.Measures;
using Archive.Records.Model;
using Archive.Records.Work;

namespace Archive.Publishing.Building;

/// <summary>Finds photos that would show what another record hides.</summary>
/// <param name="shown">Photos that are shown.</param>
/// <param name="same">Which records speak of the same picture.</param>
internal sealed class HiddenCopies(ImmutableArray<Photo> shown, SamePictures same)
{
    private readonly Dictionary<SourceSpan, ImmutableArray<Photo>> _different = [];

    /// <summary>
    /// Records of the same bytes under another name that do not hide the same parts. Two records that name one file are reported by the
    /// record's own checks.
    /// </summary>
    internal IEnumerable<Diagnostic> Errors() =>
        from photo in shown
        let boxes = Boxes(photo).ToHashSet()
        let hiding = Different(photo).FirstOrDefault(other => other.FilePath != photo.FilePath && !boxes.IsSupersetOf(Boxes(other)))
        where hiding is not null
        select DiagnosticDescriptors.CopyOfHidden.At(
            photo.File!.Value.Span,
            $"`{photo.Id}` shows {(photo.Redact.IsEmpty ? "what" : "some of what")} `{hiding.Id}` hides: `{photo.FilePath}` and `{hiding.FilePath}` are identical pictures",
            $"delete one of the two records, or write the same `redact` in both",
            new Related(hiding.Redact[0].Box.Span, $"hidden by `{hiding.Id}` here"));

    /// <summary>Photos that look like one of which parts are hidden, and hide nothing themselves.</summary>
    /// <param name="hiding">Photos that hide something, withdrawn ones too.</param>
    /// <param name="measures">What was measured of the photos, by where their records stand.</param>
    internal IEnumerable<Diagnostic> LookAlikes(IEnumerable<Photo> hiding, IReadOnlyDictionary<SourceSpan, PhotoMeasures> measures)
    {
        var hidden = hiding.Where(photo => measures.ContainsKey(photo.Span))
            .Select(photo => (Photo: photo, Search: new CopySearch(measures[photo.Span].Miniature)))
            .ToList();
        if (hidden.Count == 0) return [];
        return SideBySide.Select(
                [.. shown.Where(photo => measures.ContainsKey(photo.Span) && same.GroupOf(photo).All(other => other.Redact.IsEmpty))],
                photo => (Photo: photo, Hiding: hidden.Find(each => each.Search.Finds(measures[photo.Span].Miniature)).Photo))
            .Where(pair => pair.Hiding is not null)
            .Select(pair => DiagnosticDescriptors.LooksLikeHidden.At(
                pair.Photo.File!.Value.Span,
                $"`{pair.Photo.Id}` looks like `{pair.Hiding.Id}`, which has hidden parts, but hides nothing itself",
                "compare the two: if they show the same, write `redact` here too, or withdraw one of them",
                new Related(pair.Hiding.Redact[0].Box.Span, $"hidden by `{pair.Hiding.Id}` here")));
    }

    // Of the records of one picture that hide the same parts under the same name one is as good as any; and a second name is enough to
    // differ from the first.
    private ImmutableArray<Photo> Different(Photo photo)
    {
        var all = same.GroupOf(photo);
        if (_different.TryGetValue(all[0].Span, out var known)) return known;
        var kept = all.Where(other => !other.Redact.IsEmpty)
            .GroupBy(
                other => string.Join(' ', Boxes(other).Distinct().Select(box => box.ToString()).Order(StringComparer.Ordinal)),
                StringComparer.Ordinal)
            .SelectMany(alike => alike.DistinctBy(other => other.FilePath, StringComparer.Ordinal).Take(2));
        return _different[all[0].Span] = [.. all.Intersect(kept)];
    }

    private static IEnumerable<ImageBox> Boxes(Photo photo) => photo.Redact.Select(redaction => redaction.Box.Value);
}
