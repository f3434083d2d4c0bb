using System.Buffers;
using System.Collections.Immutable;
using System.Text;
using Archive.Diagnostics;
using Archive.Markup.Text;
using Archive.Storage.Output;
using Scriban.Runtime;
using Scriban.Syntax;

namespace Archive.Markup.Templates;

/// <summary>Gathers a page as UTF-8 bytes. What comes in through it is markup already.</summary>
internal sealed class PageOutput : IScriptOutput
{
    /// <summary>Size of a page in bytes: a template that writes without end must not fill the memory. The largest page of 100,000 cables
    /// is far below.</summary>
    internal const int LargestPage = 64 << 20;

    private const int UsualRoom = 64 * 1024;

    // One page's room serves the next.
    private byte[] _room = ArrayPool<byte>.Shared.Rent(UsualRoom);
    private int _length;

    /// <summary>What was gathered; nothing is added after that.</summary>
    /// <param name="diagnostics">What is wrong with it.</param>
    public RenderedContent Finish(params ImmutableArray<Diagnostic> diagnostics) =>
        new(_room.AsMemory(0, _length), diagnostics) { Lent = _room };

    /// <summary>
    /// Adds markup. What pages cannot hold is made visible as it is added, for prose and templates come through here as they were written.
    /// </summary>
    public void Write(ReadOnlySpan<char> markup) => HtmlEscaping.EachOfMarkup(markup, this, static (output, part) => output.Append(part));

    /// <summary>Adds what <see cref="BytesOf"/> has made of markup.</summary>
    public void WriteBytes(ReadOnlySpan<byte> markup)
    {
        if (_length + markup.Length > _room.Length) Grow(_length + markup.Length);
        markup.CopyTo(_room.AsSpan(_length));
        _length += markup.Length;
    }

    /// <summary>Markup as pages have it in their bytes: what they cannot hold is made visible.</summary>
    public static byte[] BytesOf(string markup)
    {
        var output = new PageOutput();
        output.Write(markup);
        return output.Written.ToArray();
    }

    /// <summary>Adds text, escaped.</summary>
    public void WriteText(ReadOnlySpan<char> text) => HtmlEscaping.Each(text, this, static (output, part) => output.Append(part));

    private void Append(ReadOnlySpan<char> markup)
    {
        // No UTF-16 unit takes more than three bytes of UTF-8.
        var most = _length + (3 * markup.Length);
        if (most > _room.Length) Grow(most);
        _length += Encoding.UTF8.GetBytes(markup, _room.AsSpan(_length));
    }

    /// <summary>Behind how many bytes the page asked for a table of contents; null where it did not.</summary>
    public int? ContentsAt { get; set; }

    /// <summary>What was gathered so far.</summary>
    public ReadOnlySpan<byte> Written => _room.AsSpan(0, _length);

    /// <summary>Puts markup between what was gathered.</summary>
    /// <param name="at">Behind how many bytes.</param>
    /// <param name="markup">Markup in UTF-8.</param>
    public void Insert(int at, ReadOnlySpan<byte> markup)
    {
        if (_length + markup.Length > _room.Length) Grow(_length + markup.Length);
        _room.AsSpan(at, _length - at).CopyTo(_room.AsSpan(at + markup.Length));
        markup.CopyTo(_room.AsSpan(at));
        _length += markup.Length;
    }

    public void Write(string text, int offset, int count) => Write(text.AsSpan(offset, count));

    public ValueTask WriteAsync(string text, int offset, int count, CancellationToken cancellationToken)
    {
        Write(text, offset, count);
        return ValueTask.CompletedTask;
    }

    private void Grow(int least)
    {
        if (least > LargestPage)
            throw new ScriptRuntimeException(default, $"the page grows beyond {LargestPage >> 20} MB");
        var larger = ArrayPool<byte>.Shared.Rent(Math.Max(least, 2 * _room.Length));
        _room.AsSpan(0, _length).CopyTo(larger);
        ArrayPool<byte>.Shared.Return(_room);
        _room = larger;
    }
}
