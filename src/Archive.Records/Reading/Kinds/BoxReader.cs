using Archive.Records.Model;
using Archive.Records.Reading.Format;
using Archive.Records.Reading.Values;

namespace Archive.Records.Reading.Kinds;

/// <summary>Reads <c>boxes/</c>.</summary>
internal static class BoxReader
{
    /// <inheritdoc cref="ReadKind"/>
    public static ArchiveRecord Read(MappingReader from, CommonFields common) => new Box
    {
        Id = common.Id,
        IdSpan = common.IdSpan,
        Span = from.Span,
        Size = from.Read(BoxFormat.Size),
        Weight = from.Read(BoxFormat.Weight),
        Limit = from.Read(BoxFormat.Limit),
        Condition = from.Read(BoxFormat.Condition),
    };
}
