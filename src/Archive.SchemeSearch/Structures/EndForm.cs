using System.Collections.Immutable;
using Archive.SchemeSearch.Labels;

namespace Archive.SchemeSearch.Structures;

/// <summary>How each end of a label is cut into pieces, stretch by stretch.</summary>
/// <param name="Layout">How the label is divided between its ends.</param>
/// <param name="Chunks">The pieces of each stretch of an end; both ends are cut alike.</param>
internal sealed record EndForm(LabelLayout Layout, ImmutableArray<ImmutableArray<LabelPiece>> Chunks)
{
    private const int MostForms = 4_000;
    private const int FewestGroups = 2;
    private const int MostGroups = 4;

    internal ImmutableArray<LabelPiece> Groups { get; } = [.. Chunks.SelectMany(chunk => chunk).Where(piece => piece.IsGroup)];

    /// <summary>All forms of a layout, up to a bound.</summary>
    /// <param name="isWhole">Whether the bound was not reached.</param>
    internal static ImmutableArray<EndForm> Of(LabelLayout layout, out bool isWhole)
    {
        var chunks = layout.Labels[0].Ends[0].Length;
        var forms = new List<ImmutableArray<ImmutableArray<LabelPiece>>> { ImmutableArray<ImmutableArray<LabelPiece>>.Empty };
        isWhole = true;
        for (var chunk = 0; chunk < chunks; chunk++)
        {
            var choices = ChunkForms.Of([.. layout.Labels.SelectMany(label => label.Ends.Select(end => end[chunk]))]);
            forms = [.. forms.SelectMany(form => choices.Select(choice => form.Add(choice)))
                .Where(form => form.Sum(pieces => pieces.Count(piece => piece.IsGroup)) <= MostGroups)
                .Take(MostForms + 1)];
            if (forms.Count <= MostForms) continue;
            isWhole = false;
            forms.RemoveAt(MostForms);
        }

        return [.. forms.Select(form => new EndForm(layout, form)).Where(form => form.Groups.Length >= FewestGroups)];
    }

    /// <summary>Every way to say what the groups give: frame and port always, row and one of shelf and term where there are more.</summary>
    internal IEnumerable<ImmutableArray<Field>> Assignments() =>
        Enum.GetValues<Field>().Aggregate(
                new[] { new Field?[Groups.Length] }.AsEnumerable(),
                (partly, field) => partly.SelectMany(fields => Placed(fields, field)))
            .Where(fields => fields.All(field => field is not null))
            .Select(fields => fields.Select(field => field!.Value).ToImmutableArray())
            .Where(fields => fields.Contains(Field.Frame) && fields.Contains(Field.Port)
                && !(fields.Contains(Field.Shelf) && fields.Contains(Field.Term)));

    private IEnumerable<Field?[]> Placed(Field?[] fields, Field field)
    {
        if (field is not Field.Frame and not Field.Port) yield return fields;
        for (var at = 0; at < fields.Length; at++)
        {
            if (fields[at] is not null || !Fits(Groups[at].Kind, field)) continue;
            var placed = (Field?[])fields.Clone();
            placed[at] = field;
            yield return placed;
        }
    }

    private static bool Fits(GlyphKind kind, Field field) => kind switch
    {
        GlyphKind.Figures => field != Field.Term,
        GlyphKind.Letters => field is Field.Row or Field.Shelf or Field.Term,
        _ => field == Field.Row,
    };
}
