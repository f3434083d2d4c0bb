using System.Collections.Immutable;

namespace Archive.Drawings.Sheets;

/// <summary>A format of paper, lying (ISO 216).</summary>
/// <param name="Width">In millimetres.</param>
/// <param name="Height">In millimetres.</param>
public sealed record PaperFormat(string Name, double Width, double Height)
{
    /// <summary>What an office prints on.</summary>
    public static PaperFormat A3 { get; } = new("A3", 420, 297);

    /// <summary>What hangs on a wall.</summary>
    public static PaperFormat A1 { get; } = new("A1", 841, 594);

    /// <summary>Those that wall sheets are made for, the smaller first.</summary>
    public static ImmutableArray<PaperFormat> All { get; } = [A3, A1];
}
