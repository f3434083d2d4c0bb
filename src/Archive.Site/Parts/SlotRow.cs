using System.Collections.Immutable;
using Archive.Markup.Links;

namespace Archive.Site.Parts;

/// <summary>A slot of a frame as a line of a table: what was in it.</summary>
/// <param name="Position">The position; empty where only the frame is known.</param>
/// <param name="Slot">The slot, or a range of empty ones; empty where it is not known.</param>
/// <param name="Unit">What was in it; null if it was empty.</param>
/// <param name="Marking">What is printed on it, exactly; empty for nothing.</param>
/// <param name="Straps">How each strap was found set, in words.</param>
/// <param name="Now">Where the unit is now, in words; empty while it is in its slot.</param>
public sealed record SlotRow(
    string Position, string Slot, RecordLink? Unit, string Marking, string Serial, ImmutableArray<string> Straps, string Now);
