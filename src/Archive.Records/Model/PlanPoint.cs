namespace Archive.Records.Model;

/// <summary>A point of a floor plan.</summary>
/// <param name="X">Millimetres to the east (right).</param>
/// <param name="Y">Millimetres to the south (down the plan).</param>
public readonly record struct PlanPoint(double X, double Y);
