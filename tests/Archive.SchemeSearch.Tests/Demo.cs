using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.SchemeSearch.Labels;

namespace Archive.SchemeSearch.Tests;

/// <summary>The labels and ports of the demo.</summary>
internal static class Demo
{
    internal static ArchiveModel Record { get; } = ReadRecord();

    internal static string[] Ports { get; } =
    [
        .. from frame in Record.Frames
           from position in frame.Positions
           from port in position.Ports.SelectMany(range => range.Names)
           select $"{frame.Id}/{position.Id.Value}/{port}",
    ];

    /// <summary>Every n-th label of a cable; with the ends that were seen, or without.</summary>
    internal static TypedLabel[] Sleeves(int count, bool isSeen)
    {
        var labelled = Record.Cables.Where(cable => cable.Label is not null).ToArray();
        return [.. labelled.Where((_, at) => at % (labelled.Length / count) == 0).Take(count)
            .Select(cable => new TypedLabel(cable.Label!.Value.Value, isSeen ? [.. cable.Ends.Select(Seen).OfType<string>()] : []))];
    }

    /// <summary>Tags at ends, each with the end it hangs at.</summary>
    internal static TypedLabel[] Tags(Func<string, bool> isWanted, int count, bool isSeen) =>
    [
        .. Record.Cables.SelectMany(cable => cable.Ends)
            .Where(end => end.Label is { } tag && isWanted(tag.Value))
            .Take(count)
            .Select(end => new TypedLabel(end.Label!.Value.Value, isSeen && Seen(end) is { } at ? [at] : [])),
    ];

    private static string? Seen(CableEnd end) => end.At is { } at && at.Value.Port is not null ? at.Value.ToString() : null;

    private static ArchiveModel ReadRecord()
    {
        var read = RecordReader.Read(new ArchiveFolder(Path.Combine(Repository.Root, "content")));
        return ArchiveModel.From(read.Statement!, read.Records);
    }
}
