using Archive.Diagnostics;
using Archive.Records;

namespace Archive.Hall;

/// <summary>AF0610: a row that runs the way it faces, or against it, has no fronts.</summary>
internal static class RowDirection
{
    internal static IEnumerable<Diagnostic> Check(HallLayout layout) =>
        from row in layout.Rows.Select(set => set.Row)
        where !RowSetting.CanBeSet(row)
        let across = row.Faces.Value is Compass.North or Compass.South ? "east or west" : "north or south"
        select Faults.RowRunsAsItFaces.At(
            row.Runs.Span,
            $"row {row.Id.Value} runs {Word(row.Runs.Value)} and faces {Word(row.Faces.Value)}; a row runs along its fronts",
            $"let it run {across}, or mend the side that it faces",
            new Related(row.Faces.Span, "the side it faces is said here"));

    private static string Word(Compass side) => side switch
    {
        Compass.North => "north",
        Compass.East => "east",
        Compass.South => "south",
        _ => "west",
    };
}
