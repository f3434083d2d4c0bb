using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Rendering;

namespace Archive.Preservation.Sealing;

/// <summary>What came of a sealing.</summary>
/// <param name="Faults">All that is to be reported about the record, in order.</param>
public abstract record SealResult(ImmutableArray<RenderedDiagnostic> Faults)
{
    /// <summary>The bag stands.</summary>
    /// <param name="Faults">What was reported about the record.</param>
    /// <param name="Targets">Where: the bag, and the one of withheld originals if there is one.</param>
    /// <param name="Files">Files of their payloads.</param>
    /// <param name="Bytes">Bytes of their payloads.</param>
    /// <param name="Kept">Files that an interrupted run had sealed already.</param>
    public sealed record Done(ImmutableArray<RenderedDiagnostic> Faults, ImmutableArray<string> Targets, int Files, long Bytes, int Kept)
        : SealResult(Faults);

    /// <summary>Errors of the record stood in the way; nothing was sealed.</summary>
    public sealed record Withheld(ImmutableArray<RenderedDiagnostic> Faults) : SealResult(Faults);

    /// <summary>Something outside stood in the way; nothing was sealed.</summary>
    /// <param name="Faults">What was reported about the record.</param>
    /// <param name="Why">What it was.</param>
    public sealed record Refused(ImmutableArray<RenderedDiagnostic> Faults, Diagnostic Why) : SealResult(Faults);
}
