using Archive.Markup.Links;

namespace Archive.Site.Parts;

/// <summary>What comes before and after a record along a shelf, a tray or a row.</summary>
/// <param name="Previous">The one before; null for the first.</param>
/// <param name="Next">The one after; null for the last.</param>
public sealed record Beside(RecordLink? Previous, RecordLink? Next)
{
    /// <summary>Neither.</summary>
    public static Beside None { get; } = new(null, null);
}

/// <summary>A tray in which a cable lies, with the cables beside it there.</summary>
public sealed record TrayStop(RecordLink Tray, Beside Beside);
