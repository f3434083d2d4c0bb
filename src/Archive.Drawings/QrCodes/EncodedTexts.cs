using System.Collections.Concurrent;

namespace Archive.Drawings.QrCodes;

/// <summary>QR codes, each encoded once, however many pages and labels have it.</summary>
/// <remarks>Safe for use by many threads at once.</remarks>
public sealed class EncodedTexts
{
    private readonly ConcurrentDictionary<(string Text, ErrorCorrectionLevel Level), QrMatrix?> _codes = new();

    /// <summary>The code of a text; null where it is too long for one.</summary>
    /// <param name="level">How much may be damaged.</param>
    public QrMatrix? Find(string text, ErrorCorrectionLevel level) =>
        _codes.GetOrAdd((text, level), static code => QrMatrix.Encode(code.Text, code.Level));
}
