using Archive.Records.Model;
using Archive.Records.Reading.Format;
using Archive.Records.Reading.Values;

namespace Archive.Records.Reading.Kinds;

/// <summary>Reads <c>displays/</c>.</summary>
internal static class DisplayReader
{
    /// <inheritdoc cref="ReadKind"/>
    public static ArchiveRecord Read(MappingReader from, CommonFields common)
    {
        var needs = NeedReader.Read(from, DisplayFormat.Needs);
        return new Display { Id = common.Id, IdSpan = common.IdSpan, Span = from.Span, Needs = needs };
    }
}
