using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Wiring.Labels;

/// <summary>An end of a cable whose place is known.</summary>
/// <param name="At">The place; the frame by its present id.</param>
/// <param name="Seen">The end as observed; null where only the print gives it.</param>
/// <param name="IsDerived">Whether the place was read from print and not seen.</param>
public readonly record struct KnownEnd(Address At, CableEnd? Seen, bool IsDerived);
