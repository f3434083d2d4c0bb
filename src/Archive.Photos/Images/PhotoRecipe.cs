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
    internal const string Process = "prints 3, libvips 8.18.7, Noto Sans 2.004";

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
    } = [2400, 1280, 480];

    /// <summary>The credit line in a corner of each print; null or blank for none.</summary>
    public string? Watermark { get; init; }

    /// <summary>Parts that the credit line must not cover if it can be avoided, beside those that are blacked out.</summary>
    public ImmutableArray<FractionBox> Regions
    {
        get;
        init => field = value.IsDefault ? [] : value;
    } = [];

    /// <summary>What is blacked out in each print.</summary>
    public ImmutableArray<FractionBox> Redactions
    {
        get;
        init => field = value.IsDefault ? [] : value;
    } = [];

    /// <summary>The rights written into each print.</summary>
    public PhotoRights Rights { get; init; } = PhotoRights.None;

    /// <summary>What the credit line avoids.</summary>
    internal IEnumerable<FractionBox> KeptClear => Regions.Concat(Redactions);

    /// <summary>The name under which pictures of an original by this recipe are kept.</summary>
    /// <param name="sha256">SHA-256 of the original, lower-case hexadecimal.</param>
    /// <returns>64 lower-case hexadecimal digits.</returns>
    internal string KeyFor(string sha256)
    {
        var text = new StringBuilder();
        Say(Process);
        Say(sha256);
        Say(string.Join(' ', Widths));
        Say(Watermark);
        SayAll(Redactions);
        SayAll(Regions);
        Say(Rights.Title);
        Say(Rights.Creator);
        Say(Rights.Credit);
        Say(Rights.Licence);
        Say(Rights.Source);
        Say(Rights.LicenceAddress);
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text.ToString())));

        void SayAll(ImmutableArray<FractionBox> boxes) =>
            Say(string.Join('\n', boxes.Select(box =>
                string.Create(CultureInfo.InvariantCulture, $"{box.Left:R} {box.Top:R} {box.Width:R} {box.Height:R}"))));

        // Each part with its length before it, so that no two recipes spell the same text.
        void Say(string? part) => text.Append(CultureInfo.InvariantCulture, $"{part?.Length ?? -1}:").Append(part).Append('\n');
    }
}
