using System.Collections.Immutable;

namespace Archive.Records;

/// <summary>A standing cable, and where its ends were seen.</summary>
/// <param name="Cable">The cable.</param>
/// <param name="Ends">Its ends that were seen somewhere.</param>
internal readonly record struct SeenCable(Cable Cable, ImmutableArray<SeenEnd> Ends)
{
    /// <summary>Finds the frames that a cable ends on.</summary>
    /// <param name="cable">The cable.</param>
    /// <param name="record">The look-ups.</param>
    public static SeenCable Of(Cable cable, AsFound record)
    {
        var ends = ImmutableArray.CreateBuilder<SeenEnd>(cable.Ends.Length);
        foreach (var end in cable.Ends)
        {
            if (end.At is { } at) ends.Add(new SeenEnd(at, record.FrameAt(at.Value)));
        }

        return new SeenCable(cable, ends.DrainToImmutable());
    }
}

/// <summary>Where an end of a cable was seen.</summary>
/// <param name="At">The address as written.</param>
/// <param name="Frame">The frame it names; null where there is none.</param>
internal readonly record struct SeenEnd(Stated<Address> At, Frame? Frame)
{
    /// <summary>The address by the frame's id of now: two spellings of one frame are one frame.</summary>
    public Address Now => Frame is { } frame && frame.Id != At.Value.Frame ? Address.Of(frame.Id, At.Value.Position, At.Value.Port) : At.Value;
}
