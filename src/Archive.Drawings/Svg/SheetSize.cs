namespace Archive.Drawings.Svg;

/// <summary>Size of a drawing in its units: CSS pixels at the size it is made for.</summary>
internal readonly record struct SheetSize(double Width, double Height);
