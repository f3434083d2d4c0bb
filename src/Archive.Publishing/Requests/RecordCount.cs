using Archive.Records.Model;

namespace Archive.Publishing.Requests;

/// <summary>How much a record holds.</summary>
public readonly record struct RecordCount(int Frames, int Cables, int Photos)
{
    /// <summary>Counts what a record holds; what was withdrawn is not counted, on pages either.</summary>
    public static RecordCount From(ArchiveModel record) => new(Standing(record.Frames), Standing(record.Cables), Standing(record.Photos));

    private static int Standing(IEnumerable<ArchiveRecord> records) => records.Count(record => !record.IsWithdrawn);
}
