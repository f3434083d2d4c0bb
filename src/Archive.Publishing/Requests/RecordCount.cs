using Archive.Records.Model;

namespace Archive.Publishing.Requests;

/// <summary>How much a record holds.</summary>
/// <param name="Frames">Frames.</param>
/// <param name="Cables">Cables.</param>
/// <param name="Photos">Photos.</param>
public readonly record struct RecordCount(int Frames, int Cables, int Photos)
{
    /// <summary>Counts a record.</summary>
    /// <param name="record">The record.</param>
    public static RecordCount From(ArchiveModel record) => new(record.Frames.Length, record.Cables.Length, record.Photos.Length);
}
