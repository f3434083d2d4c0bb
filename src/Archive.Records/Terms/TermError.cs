using Archive.Diagnostics;

namespace Archive.Records.Terms;

/// <summary>What is wrong with the text of a single value, before it is known where the text stands.</summary>
/// <param name="Start">Offset of the wrong part within the text, from 0.</param>
/// <param name="Length">Length of the wrong part in UTF-16 units.</param>
/// <param name="Help">What to do.</param>
public sealed record TermError(DiagnosticDescriptor Kind, int Start, int Length, string Message, string Help);
