using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.PhotoLabels.Grammars;

/// <summary>The addresses that a record declares: frames, their positions and the ports of those, by present and former names.</summary>
/// <param name="Addresses">As declared, and without leading zeros where that differs.</param>
/// <param name="IsComplete">Whether each frame lists its positions and each position its ports; else there may be more.</param>
/// <param name="Ports">The number of each port in the order in which the record declares them.</param>
internal sealed record DeclaredPlaces(ImmutableArray<string> Addresses, bool IsComplete, FrozenDictionary<Address, int> Ports)
{
    // A label that means a place beyond these is still read by the form of the scheme.
    private const int Most = 200_000;

    internal static DeclaredPlaces From(ArchiveModel record)
    {
        var frames = record.Frames.Where(frame => !frame.IsWithdrawn).ToList();
        var all = frames.SelectMany(In).SelectMany(address => new[] { address, LeadingZeros.Strip(address) });
        var taken = all.Distinct(StringComparer.Ordinal).Take(Most + 1).ToImmutableArray();
        var isComplete = frames.TrueForAll(frame => !frame.Positions.IsEmpty && frame.Positions.All(position => !position.Ports.IsEmpty));
        return taken.Length > Most
            ? new DeclaredPlaces(taken[..Most], false, PortsOf(frames))
            : new DeclaredPlaces(taken, isComplete && frames.Count > 0, PortsOf(frames));
    }

    private static FrozenDictionary<Address, int> PortsOf(IEnumerable<Frame> frames)
    {
        var ports = new Dictionary<Address, int>();
        var number = 0;
        foreach (var (frame, position, port) in from frame in frames
                                                from position in frame.Positions
                                                from range in position.Ports
                                                from port in range.Names
                                                select (frame, position, port))
        {
            if (number == Most) break;
            foreach (var name in NamesOf(frame)) ports.TryAdd(Address.Create(name, position.Id.Value, port), number);
            number++;
        }

        return ports.ToFrozenDictionary();
    }

    private static IEnumerable<string> NamesOf(Frame frame) => frame.Was.Select(was => was.Value).Prepend(frame.Id);

    private static IEnumerable<string> In(Frame frame)
    {
        foreach (var name in NamesOf(frame))
        {
            yield return name;
            foreach (var position in frame.Positions)
            {
                yield return $"{name}/{position.Id.Value}";
                foreach (var port in position.Ports.SelectMany(range => range.Names)) yield return $"{name}/{position.Id.Value}/{port}";
            }
        }
    }
}
