using Archive.Records.Model;

namespace Archive.Publishing.Requests;

/// <summary>How much a record holds.</summary>
public readonly record struct RecordCount(int Frames, int Cables, int Photos)
{
    /// <summary>Counts a record.</summary>
    public static RecordCount From(ArchiveModel record) => new(record.Frames.Length, record.Cables.Length, record.Photos.Length);
}
