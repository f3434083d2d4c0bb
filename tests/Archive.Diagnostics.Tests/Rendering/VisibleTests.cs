using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Xml;
using Archive.Diagnostics.Rendering;
using CsCheck;
using Xunit;

namespace Archive.Diagnostics.Tests.Rendering;

/// <summary>The one visible form: nothing harmful comes through, nothing harmless is touched.</summary>
public sealed class VisibleTests
{
    // Letters, and every sort of character that does harm or looks as if it did.
    private static readonly Gen<string> Texts = Gen.OneOf(
        Gen.Char[' ', '~'],
        Gen.Char['\0', '\u001F'],
        Gen.Char['\u007F', '\u009F'],
        Gen.Char['\u202A', '\u202E'],
        Gen.Char['\u2060', '\u2069'],
        Gen.Char['\uFDD0', '\uFDEF'],
        Gen.Char['\uFFFE', '\uFFFF'],
        Gen.Char['\u0590', '\u06FF'],
        Gen.Char['\uD800', '\uDFFF'],
        Gen.Char['\u2000', '\u202F']).Array[0, 40].Select(letters => new string(letters));

    [Theory]
    [InlineData("a\u001b[31mb", "a␛[31mb")]
    [InlineData("\0\u0001\u0008\u007f", "␀␁␈␡")]
    [InlineData("\u0085\u009b", "<U+0085><U+009B>")]
    [InlineData("R1-01\u202e10-1R", "R1-01<U+202E>10-1R")]
    [InlineData("\u2066x\u2069", "<U+2066>x<U+2069>")]
    [InlineData("x\ufffe\ufdd0", "x<U+FFFE><U+FDD0>")]
    [InlineData("\U0001FFFE", "<U+1FFFE>")]
    [InlineData("a\tb\r\nc", "a\tb\r\nc")]
    public void What_harms_is_shown(string text, string shown) => Assert.Equal(shown, VisibleText.Text(text));

    /// <summary>Not in an attribute's argument, which is UTF-8 and could not hold it.</summary>
    [Fact]
    public void Half_a_pair_is_shown() => Assert.Equal("<U+D800>x<U+DC00>", VisibleText.Text("\ud800x\udc00"));

    /// <summary>Names as people write them, in scripts that need marks and joiners.</summary>
    [Theory]
    [InlineData("מסגרת 3 (משדר)!\u200f")] // Hebrew, a mark that keeps the exclamation mark in its place
    [InlineData("\u061cجهاز الإرسال ١٢")] // Arabic
    [InlineData("می\u200cخواهم")] // Persian, with a non-joiner
    [InlineData("क्\u200dष")] // Devanagari, with a joiner
    [InlineData("👩\u200d🔧 🏴󠁧󠁢󠁥󠁮󠁧󠁿")] // joined pictures, a flag of tags
    [InlineData("soft\u00adhyphen\u200b, 5\u202f‰ – “so”")]
    public void What_is_written_right_to_left_or_joined_stays_as_it_is(string text) => Assert.Equal(text, VisibleText.Text(text));

    [Fact]
    public void No_text_comes_out_with_anything_harmful_and_what_comes_out_stays() => Texts.Sample(text =>
    {
        var shown = VisibleText.Text(text);
        Assert.DoesNotContain(shown, IsHarmful);
        Assert.Equal(shown, XmlConvert.VerifyXmlChars(shown));
        Assert.Equal(shown, Encoding.UTF8.GetString(Encoding.UTF8.GetBytes(shown)));
        Assert.Equal(shown, VisibleText.Text(shown));
        Assert.DoesNotContain(VisibleText.From(text), letter => IsHarmful(letter) || letter is '\n' or '\r' or '\t');
    });

    /// <summary>Whatever the parts in which it is written.</summary>
    [Fact]
    public void No_writer_lets_anything_harmful_through() => Gen.Select(Texts, Gen.Int[1, 7]).Sample((text, step) =>
    {
        using var inner = new StringWriter();
        using (var writer = new VisibleWriter(inner))
        {
            for (var at = 0; at < text.Length; at += step)
            {
                if (step == 1) writer.Write(text[at]);
                else writer.Write(text.AsSpan(at, Math.Min(step, text.Length - at)));
            }

            writer.Flush();
        }

        var written = inner.ToString();
        Assert.DoesNotContain(written.Replace("\r\n", "\n", StringComparison.Ordinal), letter => letter == '\r'
            || (IsHarmful(letter) && !char.IsSurrogate(letter)));
        if (!text.Any(letter => IsHarmful(letter) || letter == '\r')) Assert.Equal(text, written);
    });

    [Theory]
    [InlineData("a\r\nb", "a\r\nb")]
    [InlineData("a\rb\r", "a␍b␍")]
    [InlineData("\r\r\n", "␍\r\n")]
    public void A_line_end_passes_and_a_return_to_its_beginning_does_not(string text, string written)
    {
        foreach (var step in new[] { 1, 2, text.Length })
        {
            using var inner = new StringWriter();
            using var writer = new VisibleWriter(inner);
            for (var at = 0; at < text.Length; at += step) writer.Write(text.AsSpan(at, Math.Min(step, text.Length - at)));
            writer.Flush();
            Assert.Equal(written, inner.ToString());
        }
    }

    /// <summary>
    /// Programs read the very text, and no file holds a harmful character; of all else the files are the library's own, byte for byte.
    /// </summary>
    [Fact]
    public void Json_holds_nothing_harmful_and_loses_nothing() => Texts.Sample(text =>
    {
        var whole = Encoding.UTF8.GetString(Encoding.UTF8.GetBytes(text));
        JavaScriptEncoder[] encoders = [JsonText.Alone, JsonText.InMarkup];
        foreach (var encoder in encoders)
        {
            string[] written =
            [
                Written(encoder, json => json.WriteStringValue(whole)),
                Written(encoder, json => json.WriteStringValue(Encoding.UTF8.GetBytes(whole))),
                $"\"{encoder.Encode(whole)}\""
            ];
            foreach (var json in written)
            {
                Assert.DoesNotContain(json, letter => IsHarmful(letter) && !char.IsSurrogate(letter));
                Assert.Equal(whole, JsonSerializer.Deserialize<string>(json));
            }
        }

        if (!whole.Any(IsBidi)) Assert.Equal(
            Written(JavaScriptEncoder.UnsafeRelaxedJsonEscaping, json => json.WriteStringValue(whole)),
            Written(JsonText.Alone, json => json.WriteStringValue(whole)));
    });

    /// <summary>
    /// Each character is looked at once: of a text of nothing but overrides each comes once, of one without any the whole comes at once.
    /// </summary>
    [Fact]
    public void A_text_is_gone_through_once()
    {
        var calls = new Calls();
        VisibleText.Each(
            new string('\u202e', 10_000) + new string('\u202f', 10_000),
            calls,
            static (calls, part) => calls.Letters += part.Length,
            static (calls, _) => calls.Signs++);
        Assert.Equal((10_000, 10_000), (calls.Letters, calls.Signs));
    }

    private static string Written(JavaScriptEncoder encoder, Action<Utf8JsonWriter> write)
    {
        using var bytes = new MemoryStream();
        using (var json = new Utf8JsonWriter(bytes, new JsonWriterOptions { Encoder = encoder })) write(json);
        return Encoding.UTF8.GetString(bytes.ToArray());
    }

    private static bool IsBidi(char letter) => letter is >= '\u202A' and <= '\u202E' or >= '\u2066' and <= '\u2069';

    // Listed here once more, by Unicode's categories and UAX #9, so that the product's own list is compared with something.
    private static bool IsHarmful(char letter) =>
        (CharUnicodeInfo.GetUnicodeCategory(letter) == UnicodeCategory.Control && letter is not ('\t' or '\n' or '\r'))
            || IsBidi(letter)
            || letter is >= '\uFDD0' and <= '\uFDEF' or >= '\uFFFE';

    private sealed class Calls
    {
        public int Letters { get; set; }

        public int Signs { get; set; }
    }
}
