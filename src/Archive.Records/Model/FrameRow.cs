using System.Collections.Immutable;
using Archive.Diagnostics;

namespace Archive.Records.Model;

/// <summary>A row of frames, set side by side from a corner.</summary>
/// <param name="Id">Its name within the hall.</param>
/// <param name="At">Front corner of the first frame.</param>
/// <param name="Runs">Direction in which the row goes on.</param>
/// <param name="Faces">Side that the fronts look to; the depth goes away from it.</param>
/// <param name="Places">Frames and gaps in order.</param>
public sealed record FrameRow(
    Stated<string> Id, PlanPoint At, Stated<Compass> Runs, Stated<Compass> Faces, ImmutableArray<RowPlace> Places, SourceSpan Span);
