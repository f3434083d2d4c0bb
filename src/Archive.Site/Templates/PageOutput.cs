using System.Text;
using Scriban.Runtime;

namespace Archive.Site;

/// <summary>Gathers a page as UTF-8 bytes. What comes in through it is markup already.</summary>
internal sealed class PageOutput : IScriptOutput
{
    // One page's room serves the next that the thread makes.
    [ThreadStatic]
    private static byte[]? _spare;

    private byte[] _room = TakeSpare();
    private int _length;

    /// <summary>What was gathered; nothing is added after that.</summary>
    public byte[] Finish()
    {
        var bytes = _room.AsSpan(0, _length).ToArray();
        _spare = _room;
        _room = [];
        return bytes;
    }

    /// <summary>Adds markup.</summary>
    /// <param name="markup">Markup.</param>
    public void Write(ReadOnlySpan<char> markup)
    {
        // No UTF-16 unit takes more than three bytes of UTF-8.
        var most = _length + (3 * markup.Length);
        if (most > _room.Length) Array.Resize(ref _room, Math.Max(most, 2 * _room.Length));
        _length += Encoding.UTF8.GetBytes(markup, _room.AsSpan(_length));
    }

    /// <summary>Adds text, escaped.</summary>
    /// <param name="text">Any text.</param>
    public void WriteText(ReadOnlySpan<char> text) => Escaping.Each(text, this, static (output, part) => output.Write(part));

    /// <inheritdoc/>
    public void Write(string text, int offset, int count) => Write(text.AsSpan(offset, count));

    /// <inheritdoc/>
    public ValueTask WriteAsync(string text, int offset, int count, CancellationToken cancellationToken)
    {
        Write(text, offset, count);
        return ValueTask.CompletedTask;
    }

    private static byte[] TakeSpare()
    {
        var room = _spare ?? new byte[64 * 1024];
        _spare = null;
        return room;
    }
}
