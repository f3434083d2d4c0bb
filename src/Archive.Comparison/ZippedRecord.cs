using Archive.Preservation.Bags;
using Archive.Preservation.Sealing;
using Archive.Records.Reading;

namespace Archive.Comparison;

/// <summary>
/// The record in a packed bag, read where it lies. Only files that hold records are read; of others it is known that they are there.
/// </summary>
internal static class ZippedRecord
{
    /// <param name="zip">Full path of the file.</param>
    /// <param name="why">Why there is none.</param>
    internal static InMemoryFolder? Read(string zip, out string why)
    {
        why = $"{zip} contains no record: it has no folder data/record";
        try
        {
            using var list = ZipReader.Read(zip);
            if ((list.Refusal() ?? list.Wrong.FirstOrDefault()) is { } refusal)
            {
                why = $"{zip} is not read: {refusal.Message}";
                return null;
            }

            var bag = ZippedBag.In(list, list.Root());
            var paths =
                bag.Files.Where(path => path.StartsWith(Sealer.Record, StringComparison.Ordinal) && BagPath.Danger(path) is null).ToList();
            var folder = InMemoryFolder.Empty;
            foreach (var path in paths)
                folder = folder.With(path[Sealer.Record.Length..], RevisionReader.HoldsText(path) ? bag.Bytes(path) : []);
            return paths.Count == 0 ? null : folder;
        }
        catch (Exception exception) when (exception is InvalidDataException or EndOfStreamException or PackedDataException)
        {
            why = $"{zip} is not a readable ZIP file: {exception.Message.TrimEnd('.')}";
            return null;
        }
    }
}
