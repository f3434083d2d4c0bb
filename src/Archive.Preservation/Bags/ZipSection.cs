using Microsoft.Win32.SafeHandles;

namespace Archive.Preservation.Bags;

/// <summary>A stretch of a file, read from its beginning. Several may be read at a time from one handle.</summary>
/// <param name="at">Where the stretch begins.</param>
/// <param name="length">Its bytes.</param>
/// <param name="whole">False hands out at most half of what is left at a time, so that a reader which stops early is seen to have left
/// something.</param>
internal sealed class ZipSection(SafeFileHandle file, long at, long length, bool whole = true) : ForwardStream
{
    private long _done;

    /// <summary>Bytes that nobody asked for.</summary>
    internal long Left => length - _done;

    /// <summary>Bytes of a file at a place.</summary>
    /// <param name="at">Where they begin.</param>
    /// <param name="into">Is filled.</param>
    /// <exception cref="EndOfStreamException">The file ends before that.</exception>
    internal static void ReadExactly(SafeFileHandle file, long at, Span<byte> into)
    {
        for (var done = 0; done < into.Length;)
        {
            var read = RandomAccess.Read(file, into[done..], at + done);
            if (read == 0) throw new EndOfStreamException("it is shorter than its list of files says");
            done += read;
        }
    }

    public override int Read(Span<byte> buffer)
    {
        var most = whole ? Left : (Left + 1) / 2;
        var read = buffer.Length > most
            ? RandomAccess.Read(file, buffer[..(int)most], at + _done)
            : RandomAccess.Read(file, buffer, at + _done);
        if (read == 0 && buffer.Length > 0 && Left > 0) throw new EndOfStreamException("it is shorter than its list of files says");
        _done += read;
        return read;
    }
}
