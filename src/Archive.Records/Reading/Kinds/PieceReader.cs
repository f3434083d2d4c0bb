using Archive.Records.Model;
using Archive.Records.Reading.Format;
using Archive.Records.Reading.Values;

namespace Archive.Records.Reading.Kinds;

/// <summary>Reads <c>pieces/</c>.</summary>
internal static class PieceReader
{
    /// <inheritdoc cref="ReadKind"/>
    public static ArchiveRecord Read(MappingReader from, CommonFields common) => new Piece
    {
        Id = common.Id,
        IdSpan = common.IdSpan,
        Span = from.Span,
        Of = from.Read(PieceFormat.Of),
        Place = from.Read(PieceFormat.Place),
        Count = from.Read(PieceFormat.Count),
        Size = from.Read(PieceFormat.Size),
        Weight = from.Read(PieceFormat.Weight),
        Handling = from.Read(PieceFormat.Handling),
        Hazards = from.Read(PieceFormat.Hazards),
        Condition = from.Read(PieceFormat.Condition),
    };
}
