using System.IO.Compression;
using System.Xml;
using Archive.Spreadsheets.Model;

namespace Archive.Spreadsheets.Reading;

/// <summary>A packed spreadsheet: parts in a zip file, each read with a limit.</summary>
internal sealed class Package : IDisposable
{
    private readonly ZipArchive _zip;

    private Package(ZipArchive zip) => _zip = zip;

    internal static Workbook Open(Stream stream)
    {
        var package = new Package(Unpack(stream));
        try
        {
            if (package._zip.Entries.Count > SpreadsheetLimits.Parts)
                throw SpreadsheetException.TooLarge($"it has more than {SpreadsheetLimits.Parts} parts");
            if (package._zip.GetEntry("content.xml") is not null) return OdsWorkbook.Open(package);
            if (package._zip.GetEntry("[Content_Types].xml") is not null || package._zip.GetEntry("xl/workbook.xml") is not null)
                return XlsxWorkbook.Open(package);
            throw new SpreadsheetException("this zip file is no spreadsheet", "name a spreadsheet: .xlsx, .ods or .csv");
        }
        catch
        {
            package.Dispose();
            throw;
        }
    }

    internal bool Has(string path) => _zip.GetEntry(path) is not null;

    /// <summary>Reads a part.</summary>
    /// <param name="path">Its name in the file.</param>
    /// <exception cref="SpreadsheetException">It is missing.</exception>
    internal PartReader Read(string path)
    {
        var entry = _zip.GetEntry(path) ?? throw SpreadsheetException.Damaged($"it has no part {path}");
        try
        {
            return new PartReader(entry.Open());
        }
        catch (Exception exception) when (exception is InvalidDataException or NotSupportedException or IOException)
        {
            throw SpreadsheetException.Damaged(exception.Message.TrimEnd('.'));
        }
    }

    public void Dispose() => _zip.Dispose();

    private static ZipArchive Unpack(Stream stream)
    {
        try
        {
            var zip = new ZipArchive(stream, ZipArchiveMode.Read);

            // The list is read when it is first asked for.
            _ = zip.Entries.Count;
            return zip;
        }
        catch (Exception exception) when (exception is InvalidDataException or IOException or ArgumentException)
        {
            throw SpreadsheetException.Damaged("its list of parts cannot be read");
        }
    }
}

/// <summary>XML of a part, element by element; what is wrong with it becomes a <see cref="SpreadsheetException"/>.</summary>
internal sealed class PartReader : IDisposable
{
    private readonly Stream _stream;
    private readonly XmlReader _xml;

    internal PartReader(Stream stream, long limit = SpreadsheetLimits.Part)
    {
        _stream = new CountedStream(stream, limit);
        _xml = XmlReader.Create(_stream, new XmlReaderSettings
        {
            DtdProcessing = DtdProcessing.Prohibit,
            XmlResolver = null,
            IgnoreComments = true,
            IgnoreProcessingInstructions = true,
            MaxCharactersInDocument = limit,
            CheckCharacters = false,
        });
    }

    internal XmlNodeType Type => _xml.NodeType;

    internal string Name => _xml.LocalName;

    internal int Depth => _xml.Depth;

    internal string Value => _xml.Value;

    internal bool IsText =>
        _xml.NodeType is XmlNodeType.Text or XmlNodeType.CDATA or XmlNodeType.SignificantWhitespace or XmlNodeType.Whitespace;

    /// <summary>Whether an element has nothing in it and no end of its own.</summary>
    internal bool IsEmpty => _xml.IsEmptyElement;

    internal bool Read()
    {
        try
        {
            return _xml.Read();
        }
        catch (XmlException exception) when (exception.Message.Contains("DTD", StringComparison.Ordinal))
        {
            throw SpreadsheetException.Damaged("it has a document type definition, which no spreadsheet has");
        }
        catch (XmlException exception) when (exception.Message.Contains("MaxCharactersInDocument", StringComparison.Ordinal))
        {
            throw SpreadsheetException.TooLarge($"one of its parts is larger than {SpreadsheetLimits.Part >> 20} MB");
        }
        catch (Exception exception) when (exception is XmlException or InvalidDataException)
        {
            throw SpreadsheetException.Damaged("one of its parts cannot be read; it may have a password");
        }
    }

    /// <summary>An attribute by its local name; null where there is none.</summary>
    internal string? this[string name]
    {
        get
        {
            if (_xml.GetAttribute(name) is { } plain) return plain;
            string? value = null;
            if (!_xml.MoveToFirstAttribute()) return null;
            do
            {
                if (_xml.LocalName == name && _xml.Prefix != "xmlns") value = _xml.Value;
            }
            while (value is null && _xml.MoveToNextAttribute());
            _xml.MoveToElement();
            return value;
        }
    }

    /// <summary>Passes over the element that stands here, with all that is in it.</summary>
    internal void Skip()
    {
        if (IsEmpty) return;
        var depth = Depth;
        while (Read() && Depth > depth)
        {
        }
    }

    public void Dispose()
    {
        _xml.Dispose();
        _stream.Dispose();
    }

    private sealed class CountedStream(Stream inner, long limit) : Stream
    {
        private long _read;

        public override bool CanRead => true;

        public override bool CanSeek => false;

        public override bool CanWrite => false;

        public override long Length => throw new NotSupportedException();

        public override long Position
        {
            get => _read;
            set => throw new NotSupportedException();
        }

        public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

        public override int Read(Span<byte> buffer)
        {
            var count = inner.Read(buffer);
            _read += count;
            return _read > limit
                ? throw SpreadsheetException.TooLarge($"one of its parts is larger than {limit >> 20} MB")
                : count;
        }

        public override void Flush()
        {
        }

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();

        protected override void Dispose(bool disposing)
        {
            if (disposing) inner.Dispose();
            base.Dispose(disposing);
        }
    }
}
