using System.Text.Encodings.Web;
using System.Text.Unicode;

namespace Archive.Diagnostics.Rendering;

/// <summary>
/// How texts are escaped in JSON that people read too: letters stay letters, and what <see cref="VisibleText"/> shows elsewhere is escaped
/// as JSON does it (RFC 8259, 7), so that no file holds it raw and no program loses it.
/// </summary>
public static class JsonText
{
    /// <summary>For files that stand alone: nothing more is escaped.</summary>
    public static JavaScriptEncoder Alone { get; } = new Relaxed();

    /// <summary>For JSON that may come into a page: <c>&lt; &gt; &amp; '</c> are escaped too.</summary>
    public static JavaScriptEncoder InMarkup { get; } = JavaScriptEncoder.Create(OfAllButBidi());

    private static TextEncoderSettings OfAllButBidi()
    {
        var settings = new TextEncoderSettings(UnicodeRanges.All);
        settings.ForbidCharacters([.. Enumerable.Range(0, char.MaxValue).Select(code => (char)code).Where(VisibleText.IsBidi)]);
        return settings;
    }

    // The library's own relaxed encoder cannot be given more to escape; what it lets through is looked over once more.
    private sealed class Relaxed : JavaScriptEncoder
    {
        private static readonly JavaScriptEncoder Plain = UnsafeRelaxedJsonEscaping;

        // U+202A to U+202E and U+2066 to U+2069 in UTF-8: E2 80 AA to AE, E2 81 A6 to A9.
        private const byte Lead = 0xE2;

        public override int MaxOutputCharactersPerInputCharacter => Plain.MaxOutputCharactersPerInputCharacter;

        public override bool WillEncode(int unicodeScalar) =>
            unicodeScalar <= char.MaxValue && VisibleText.IsBidi((char)unicodeScalar) || Plain.WillEncode(unicodeScalar);

        public override unsafe int FindFirstCharacterToEncode(char* text, int textLength)
        {
            var first = Plain.FindFirstCharacterToEncode(text, textLength);
            var before = new ReadOnlySpan<char>(text, first < 0 ? textLength : first);
            for (var at = 0; at < before.Length; at++)
            {
                if (VisibleText.IsBidi(before[at])) return at;
            }

            return first;
        }

        public override int FindFirstCharacterToEncodeUtf8(ReadOnlySpan<byte> utf8Text)
        {
            var first = Plain.FindFirstCharacterToEncodeUtf8(utf8Text);
            var before = first < 0 ? utf8Text : utf8Text[..first];
            for (var at = before.IndexOf(Lead); at >= 0 && at + 2 < before.Length;)
            {
                if (VisibleText.IsBidi((char)(0x2000 | ((before[at + 1] & 0x3F) << 6) | (before[at + 2] & 0x3F)))) return at;
                var next = before[(at + 3)..].IndexOf(Lead);
                at = next < 0 ? -1 : at + 3 + next;
            }

            return first;
        }

        public override unsafe bool TryEncodeUnicodeScalar(
            int unicodeScalar, char* buffer, int bufferLength, out int numberOfCharactersWritten)
        {
            if (unicodeScalar > char.MaxValue || !VisibleText.IsBidi((char)unicodeScalar))
                return Plain.TryEncodeUnicodeScalar(unicodeScalar, buffer, bufferLength, out numberOfCharactersWritten);
            var isRoom = unicodeScalar.TryFormat(
                new Span<char>(buffer, bufferLength)[Math.Min(2, bufferLength)..],
                out var digits,
                "X4",
                System.Globalization.CultureInfo.InvariantCulture);
            numberOfCharactersWritten = isRoom ? 2 + digits : 0;
            if (isRoom) (buffer[0], buffer[1]) = ('\\', 'u');
            return isRoom;
        }
    }
}
