using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Wiring.Decabling;
using Archive.Wiring.Labels;
using Archive.Wiring.Safety;

namespace Archive.Wiring.Reconnecting;

/// <summary>A cable connected again.</summary>
/// <param name="Reading">What is known of the cable.</param>
/// <param name="Role">What it is to those who connect it.</param>
/// <param name="Lift">The tangle that it is part of, or itself alone.</param>
/// <param name="Turn">Its turn among all cables, from 1.</param>
/// <param name="Ends">Its known ends: the one that it stayed fast to first, if it was coiled.</param>
public sealed record RefittedCable(CableReading Reading, CableRole Role, PullGroup Lift, int Turn, ImmutableArray<RefittedEnd> Ends)
{
    public Cable Cable => Reading.Cable;

    /// <summary>Ids of the frames where it is known to end, each once.</summary>
    public IEnumerable<string> Frames => Ends.Select(end => end.End.At.Frame).Distinct(StringComparer.Ordinal);

    /// <summary>The tangle that it is part of; null where it is part of none.</summary>
    public PullGroup? Cycle => Lift.IsCycle ? Lift : null;
}
