using Archive.Records.Model;
using Archive.Records.Weights;

namespace Archive.Wiring.Boxes;

/// <summary>What a thing weighs in a box: a box without its content.</summary>
internal sealed class PackedWeights(ArchiveModel record)
{
    private readonly FrameWeights _frames = FrameWeights.From(record);

    /// <summary>The weight of a thing by itself. Trays have none in the record.</summary>
    public BoxLoad Of(ArchiveRecord thing) => BoxLoad.From(thing switch
    {
        Unit unit => unit.Weight?.Value,
        Piece piece => piece.Weight?.Value,
        Box box => box.Weight?.Value,
        Cable cable => CableWeight.Of(record, cable),
        Frame frame => _frames.Of(frame)?.Moving,
        _ => null,
    });
}
