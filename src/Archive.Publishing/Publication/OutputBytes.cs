using System.Security.Cryptography;
using Archive.Storage.Output;

namespace Archive.Publishing.Publication;

/// <summary>Makes one file of a site in memory.</summary>
internal static class OutputBytes
{
    /// <summary>Makes it.</summary>
    /// <exception cref="IOException">
    /// It is made from another file, which cannot be read, is a link, or is no longer what it was.
    /// </exception>
    internal static RenderedContent Make(OutputFile file)
    {
        switch (file)
        {
            case RenderedFile rendered:
                return rendered.Render();
            case StreamedFile streamed:
                var stream = new MemoryStream();
                streamed.Write(stream);
                return new RenderedContent(stream.GetBuffer().AsMemory(0, (int)stream.Length), []);
            case CopiedFile copied:
                return new RenderedContent(Copy(copied), []);
            case ExcerptFile excerpt:
                return new RenderedContent(Read(excerpt), []);
            default:
                throw new InvalidOperationException($"{file.GetType().Name} is not a kind of file");
        }
    }

    /// <summary>Reads a part of a file.</summary>
    /// <exception cref="IOException">The file is cut off, or is no longer what it was.</exception>
    internal static byte[] Read(ExcerptFile excerpt)
    {
        var bytes = new byte[excerpt.Size];
        using (var from = new FileStream(excerpt.From, FileMode.Open, FileAccess.Read, FileShare.Read | FileShare.Delete, bufferSize: 0))
        {
            from.Position = excerpt.Offset;
            from.ReadExactly(bytes);
        }

        if (Convert.ToHexStringLower(SHA256.HashData(bytes)) != excerpt.Sha256) throw Changed(excerpt.From);
        return bytes;
    }

    // Of unknown bytes are only the files of a theme, in which there are no links when it is read, and no links are followed later.
    private static byte[] Copy(CopiedFile copied)
    {
        if (copied.Sha256 is null && new FileInfo(copied.From).LinkTarget is not null) throw Changed(copied.From);
        var bytes = File.ReadAllBytes(copied.From);
        if (copied.Sha256 is { } known && Convert.ToHexStringLower(SHA256.HashData(bytes)) != known) throw Changed(copied.From);
        return bytes;
    }

    private static IOException Changed(string path) => new($"{path} changed while the site was being made");
}
