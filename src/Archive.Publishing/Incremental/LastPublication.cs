using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Serialization;
using Archive.Diagnostics.Rendering;
using Archive.Publishing.Caching;
using Archive.Publishing.Publication;
using Archive.Publishing.Requests;
using Archive.Storage;

namespace Archive.Publishing.Incremental;

/// <summary>What was published last into a site's folder, from what, and what was reported about it.</summary>
/// <param name="Fingerprint">Of everything that it was made from.</param>
/// <param name="Files">The site's files, the manifest among them.</param>
/// <param name="Faults">What was reported, its paths those within the archive: the next run may be started elsewhere.</param>
/// <param name="Count">What the record held.</param>
internal sealed record LastPublication(
    string Fingerprint, ImmutableArray<PublishedFile> Files, ImmutableArray<RenderedDiagnostic> Faults, RecordCount Count)
{
    private const string Header = "asfound publication 3";

    /// <summary>Nothing is known.</summary>
    internal static LastPublication None { get; } = new("", [], [], default);

    /// <summary>What is known of a site's folder.</summary>
    /// <param name="site">Full path of the site's folder.</param>
    internal static LastPublication Read(CacheFolder cache, string site)
    {
        try
        {
            if (cache.Read(NameFor(site)) is not { } file) return None;
            using var reader = new BinaryReader(file);
            if (reader.ReadString() != Header) return None;
            var fingerprint = reader.ReadString();
            var told = JsonSerializer.Deserialize(reader.ReadBytes(reader.ReadInt32()), PublicationJson.Default.CachedPublication);
            var files = ImmutableArray.CreateBuilder<PublishedFile>();
            for (var left = reader.ReadInt32(); left > 0; left--)
            {
                files.Add(new PublishedFile(
                    reader.ReadString(), Convert.ToHexStringLower(reader.ReadBytes(32)), reader.ReadInt64(), reader.ReadInt64()));
            }

            return told is null ? None : new LastPublication(fingerprint, files.DrainToImmutable(), told.Faults, told.Count);
        }
        catch (Exception exception) when (DiskErrors.Is(exception) || exception is JsonException or FormatException or ArgumentException)
        {
            return None;
        }
    }

    /// <summary>Keeps it for the next run.</summary>
    /// <param name="site">Full path of the site's folder.</param>
    internal void Keep(CacheFolder cache, string site) => cache.Replace(NameFor(site), stream =>
    {
        using var writer = new BinaryWriter(stream);
        writer.Write(Header);
        writer.Write(Fingerprint);
        var told = JsonSerializer.SerializeToUtf8Bytes(new CachedPublication(Faults, Count), PublicationJson.Default.CachedPublication);
        writer.Write(told.Length);
        writer.Write(told);
        writer.Write(Files.Length);
        foreach (var file in Files)
        {
            writer.Write(file.Path);
            writer.Write(Convert.FromHexString(file.Sha256));
            writer.Write(file.Size);
            writer.Write(file.ModifiedTicks);
        }
    });

    private static string NameFor(string site) => Path.Combine("publications", CacheFolder.KeyOf(Path.GetFullPath(site)) + ".bin");
}

/// <summary>What was reported about a record, as the cache keeps it.</summary>
/// <param name="Count">What the record held.</param>
internal sealed record CachedPublication(ImmutableArray<RenderedDiagnostic> Faults, RecordCount Count);

[JsonSourceGenerationOptions(UseStringEnumConverter = true)]
[JsonSerializable(typeof(CachedPublication))]
internal sealed partial class PublicationJson : JsonSerializerContext;
