using System.IO.Compression;
using UglyToad.PdfPig.Filters;
using UglyToad.PdfPig.Tokens;

namespace Archive.Documents.Pdf;

/// <summary>PdfPig's filters, behind counts: a small stream that would unpack to more than there is memory is never unpacked.</summary>
internal sealed class CountingFilters : IFilterProvider
{
    private readonly IFilterProvider _inner = DefaultFilterProvider.Instance;
    private long _left = PdfLimits.Streams;
    private volatile bool _isStopped;

    /// <summary>Lets what is still read end with an error.</summary>
    public void Stop() => _isStopped = true;

    public void ThrowIfStopped()
    {
        if (_isStopped) throw new PdfLimitException("reading it was given up");
    }

    public IReadOnlyList<IFilter> GetFilters(DictionaryToken dictionary) => Counted(_inner.GetFilters(dictionary));

    public IReadOnlyList<IFilter> GetNamedFilters(IReadOnlyList<NameToken> names) => Counted(_inner.GetNamedFilters(names));

    public IReadOnlyList<IFilter> GetAllFilters() => Counted(_inner.GetAllFilters());

    private IReadOnlyList<IFilter> Counted(IReadOnlyList<IFilter> filters) => [.. filters.Select(filter => new Counting(filter, this))];

    private void Take(long bytes)
    {
        ThrowIfStopped();
        if (bytes > PdfLimits.Stream) throw new PdfLimitException($"a part of it unpacks to more than {PdfLimits.Stream / 1_000_000} MB");
        _left -= bytes;
        if (_left < 0) throw new PdfLimitException($"it unpacks to more than {PdfLimits.Streams / 1_000_000} MB");
    }

    private sealed class Counting(IFilter inner, CountingFilters all) : IFilter
    {
        public bool IsSupported => inner.IsSupported;

        public Memory<byte> Decode(Memory<byte> input, DictionaryToken dictionary, IFilterProvider filters, int index)
        {
            if (inner is FlateFilter)
                all.Take(Unpacked(input));
            else if (inner is LzwFilter or RunLengthFilter && input.Length > PdfLimits.Uncounted)
                throw new PdfLimitException("a part of it is packed in a way that is not read at this size");
            else
                all.Take(input.Length);
            return inner.Decode(input, dictionary, filters, index);
        }

        // What is damaged is counted as far as it goes; PdfPig tries more than this with it, but nothing that is larger.
        private static long Unpacked(Memory<byte> input)
        {
            using var packed = new MemoryStream(input.ToArray(), writable: false);
            using var zlib = new ZLibStream(packed, CompressionMode.Decompress);
            var (buffer, count) = (new byte[81_920], 0L);
            try
            {
                while (count <= PdfLimits.Stream && zlib.Read(buffer) is > 0 and var read) count += read;
            }
            catch (InvalidDataException)
            {
                // Counted as far as it goes.
            }

            return count;
        }
    }
}
