using System.Collections.Immutable;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Archive.Photos.Rights;

namespace Archive.Photos.Images;

/// <summary>How the pictures of a photo are made. Same original, same recipe: same bytes.</summary>
public sealed record PhotoRecipe
{
    // Ours, of this code, of libvips and of the font: one of them changes, the prints may. A test holds that the library is this one.
    internal const string Process = "prints 5, libvips 8.18.7, Noto Sans 2.004";

    /// <summary>Width of the widest print, pixels.</summary>
    internal const int WidestPrint = 2400;

    /// <summary>Widths in pixels of the upright prints; an original narrower than a width gives its own width, once.</summary>
    /// <remarks>Kept widest first and without doubles.</remarks>
    /// <exception cref="ArgumentException">No width, or one not in 1..16,384.</exception>
    public ImmutableArray<int> Widths
    {
        get;
        init
        {
            if (value.IsDefaultOrEmpty || value.Any(width => width is < 1 or > 16_384))
                throw new ArgumentException("a recipe has at least one width, each in 1..16384 px", nameof(value));
            field = [.. value.Distinct().OrderDescending()];
        }
    } = [WidestPrint, 1280, 480];

    /// <summary>The credit line below the copy to pass on; null or blank for none.</summary>
    public string? Watermark { get; init; }

    /// <summary>What is blacked out in each print.</summary>
    public ImmutableArray<FractionBox> Redactions
    {
        get;
        init => field = value.IsDefault ? [] : value;
    } = [];

    /// <summary>The rights written into each print.</summary>
    public PhotoRights Rights { get; init; } = PhotoRights.None;

    /// <summary>The name under which pictures of an original by this recipe are kept.</summary>
    /// <param name="sha256">SHA-256 of the original, lower-case hexadecimal.</param>
    internal PhotoKey KeyFor(string sha256) => new(
        Checksum(
            Process, sha256, string.Join(' ', Widths), string.IsNullOrWhiteSpace(Watermark) ? null : Watermark.Trim(), Spelled(Redactions)),
        Checksum(Rights.Title, Rights.Creator, Rights.Credit, Rights.Licence, Rights.Source, Rights.LicenceAddress));

    private static string Spelled(ImmutableArray<FractionBox> boxes) => string.Join('\n', boxes.Select(box =>
        string.Create(CultureInfo.InvariantCulture, $"{box.Left:R} {box.Top:R} {box.Width:R} {box.Height:R}")));

    // Each part with its length before it, so that no two recipes spell the same text.
    private static string Checksum(params ReadOnlySpan<string?> parts)
    {
        var text = new StringBuilder();
        foreach (var part in parts) text.Append(CultureInfo.InvariantCulture, $"{part?.Length ?? -1}:").Append(part).Append('\n');
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text.ToString())));
    }
}

/// <summary>What pictures of an original are kept under: what decides their pixels, and what decides the rights that they state.</summary>
/// <param name="Pixels">64 lower-case hexadecimal digits.</param>
/// <param name="Rights">64 lower-case hexadecimal digits.</param>
internal readonly record struct PhotoKey(string Pixels, string Rights)
{
    /// <summary>The name of the file.</summary>
    public override string ToString() => $"{Pixels}-{Rights}";
}
