using Archive.Data.Tables;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Data.Shapes;

public static class PieceShape
{
    public static readonly DataShape<Piece> Shape = CommonShape.Head<Piece>()
        .Fact("of", "id of the frame, tray, cable or unit that it came off", piece => piece.Of)
        .Fact("place", "where on it, in words", piece => piece.Place)
        .Fact("count", "how many there are; one if absent", piece => piece.Count)
        .Add(new QuantityField<Piece, FrameSize>("size", "outer size of one", piece => piece.Size, UnitShape.SizeColumns))
        .Quantity("weight", "kg", "mass of all of it together", piece => piece.Weight, mass => mass.Kilograms)
        .List("handling", "how it must be handled", piece => piece.Handling.Select(word => DataValue.Word<Handling>(word.Value)!))
        .List("hazards", "what can hurt someone at it", piece => piece.Hazards.Select(hazard => DataValue.Word<Hazard>(hazard.Value)!))
        .Tail();
}

public static class BoxShape
{
    public static readonly DataShape<Box> Shape = CommonShape.Head<Box>()
        .Add(new QuantityField<Box, FrameSize>("size", "outer size", box => box.Size, UnitShape.SizeColumns))
        .Quantity("weight", "kg", "mass when it is empty", box => box.Weight, mass => mass.Kilograms)
        .Quantity("limit", "kg", "the most that it may weigh, packed", box => box.Limit, mass => mass.Kilograms)
        .Tail();
}
