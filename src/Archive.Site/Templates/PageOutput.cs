using System.Buffers;
using System.Text;
using Scriban.Runtime;

namespace Archive.Site;

/// <summary>Gathers a page as UTF-8 bytes. What comes in through it is markup already.</summary>
internal sealed class PageOutput : IScriptOutput
{
    private readonly ArrayBufferWriter<byte> _bytes = new(16 * 1024);

    /// <summary>What was gathered.</summary>
    public ReadOnlyMemory<byte> Bytes => _bytes.WrittenMemory;

    /// <summary>Adds markup.</summary>
    /// <param name="markup">Markup.</param>
    public void Write(ReadOnlySpan<char> markup) => Encoding.UTF8.GetBytes(markup, _bytes);

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
}
