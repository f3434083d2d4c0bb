using System.Text;

namespace Archive.Diagnostics.Rendering;

/// <summary>
/// Writes to a terminal or a pipe, and lets nothing harmful through: whatever a command writes, and wherever it has it from, no control
/// character gets further than this. Line ends, also those of CSV, and tabs pass.
/// </summary>
/// <param name="inner">Where what is harmless goes.</param>
public sealed class VisibleWriter(TextWriter inner) : TextWriter
{
    // A carriage return belongs to a line end only if the line feed follows, maybe with the next call.
    private bool _isReturnHeld;

    public override Encoding Encoding => inner.Encoding;

    /// <summary>Where what is harmless goes: for colours, which are put between parts that were made visible already.</summary>
    internal TextWriter Inner => inner;

    public override void Write(char value) => Write([value]);

    public override void Write(char[] buffer, int index, int count) => Write(buffer.AsSpan(index, count));

    public override void Write(string? value) => Write(value.AsSpan());

    public override void Write(ReadOnlySpan<char> buffer)
    {
        if (buffer.Length == 0) return;
        if (_isReturnHeld) inner.Write(buffer[0] == '\n' ? "\r" : VisibleText.Code('\r'));
        _isReturnHeld = false;
        for (var at = buffer.IndexOf('\r'); at >= 0; at = buffer.IndexOf('\r'))
        {
            Lines(buffer[..at]);
            _isReturnHeld = at + 1 == buffer.Length;
            if (_isReturnHeld) return;
            inner.Write(buffer[at + 1] == '\n' ? "\r" : VisibleText.Code('\r'));
            buffer = buffer[(at + 1)..];
        }

        Lines(buffer);
    }

    public override void Flush()
    {
        if (_isReturnHeld) inner.Write(VisibleText.Code('\r'));
        _isReturnHeld = false;
        inner.Flush();
    }

    public override Task FlushAsync()
    {
        Flush();
        return Task.CompletedTask;
    }

    private void Lines(ReadOnlySpan<char> text) =>
        VisibleText.Each(text, inner, static (inner, part) => inner.Write(part), static (inner, sign) => inner.Write(sign));
}
