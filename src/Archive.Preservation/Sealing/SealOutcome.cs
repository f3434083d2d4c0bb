using System.Collections.Immutable;
using Archive.Diagnostics;

namespace Archive.Preservation;

/// <summary>What came of a sealing.</summary>
/// <param name="Faults">All that is to be told of the record, in order.</param>
public abstract record SealOutcome(ImmutableArray<Telling> Faults)
{
    /// <summary>The bag stands.</summary>
    /// <param name="Faults">What was told of the record.</param>
    /// <param name="Targets">Where: the bag, and the one of withheld originals if there is one.</param>
    /// <param name="Files">Files of their payloads.</param>
    /// <param name="Bytes">Bytes of their payloads.</param>
    /// <param name="Kept">Files that an interrupted run had sealed already.</param>
    public sealed record Done(ImmutableArray<Telling> Faults, ImmutableArray<string> Targets, int Files, long Bytes, int Kept) : SealOutcome(Faults);

    /// <summary>Faults of the record stood in the way; nothing was sealed.</summary>
    /// <param name="Faults">The faults.</param>
    public sealed record Withheld(ImmutableArray<Telling> Faults) : SealOutcome(Faults);

    /// <summary>Something outside stood in the way; nothing was sealed.</summary>
    /// <param name="Faults">What was told of the record.</param>
    /// <param name="Why">What it was.</param>
    public sealed record Refused(ImmutableArray<Telling> Faults, Diagnostic Why) : SealOutcome(Faults);
}
