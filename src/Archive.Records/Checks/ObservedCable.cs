using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Records.Checks;

/// <summary>A standing cable, and where its ends were seen.</summary>
/// <param name="Ends">Its ends that were seen somewhere.</param>
internal readonly record struct ObservedCable(Cable Cable, ImmutableArray<ObservedEnd> Ends)
{
    /// <summary>Finds the frames that a cable ends on.</summary>
    public static ObservedCable From(Cable cable, ArchiveModel record)
    {
        var ends = ImmutableArray.CreateBuilder<ObservedEnd>(cable.Ends.Length);
        foreach (var end in cable.Ends)
        {
            if (end.At is { } at) ends.Add(new ObservedEnd(at, record.FrameAt(at.Value)));
        }

        return new ObservedCable(cable, ends.DrainToImmutable());
    }
}

/// <summary>Where an end of a cable was seen.</summary>
/// <param name="At">The address as written.</param>
/// <param name="Frame">The frame it names; null where there is none.</param>
internal readonly record struct ObservedEnd(Stated<Address> At, Frame? Frame)
{
    /// <summary>The address by the frame's id of now: two spellings of one frame are one frame.</summary>
    public Address Now =>
        Frame is { } frame && frame.Id != At.Value.Frame ? Address.Create(frame.Id, At.Value.Position, At.Value.Port) : At.Value;
}
