using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using Archive.Photos.Images;
using Archive.Photos.Measures;
using Archive.Photos.Metadata;

namespace Archive.Photos.Caching;

/// <summary>The original is there, is the one the record names, and its header can be read.</summary>
/// <param name="Sha256">SHA-256 of the original, lower-case hexadecimal.</param>
/// <param name="Reading">What its header says.</param>
public sealed record InspectedPhoto(string Sha256, PhotoHeader Reading) : ReadPhoto(Sha256, Reading);

/// <summary>The original was decoded and measured.</summary>
/// <param name="Sha256">SHA-256 of the original, lower-case hexadecimal.</param>
/// <param name="Reading">What its header says.</param>
/// <param name="Measures">What was measured of its pixels.</param>
public sealed record MeasuredPhoto(string Sha256, PhotoHeader Reading, PhotoMeasures Measures) : ReadPhoto(Sha256, Reading);

/// <summary>The original was looked through for QR codes.</summary>
/// <param name="Sha256">SHA-256 of the original, lower-case hexadecimal.</param>
/// <param name="Reading">What its header says.</param>
/// <param name="Codes">The texts of the codes that stand in it, ordinal, each once.</param>
public sealed record ScannedPhoto(string Sha256, PhotoHeader Reading, ImmutableArray<string> Codes) : ReadPhoto(Sha256, Reading)
{
    public bool Equals(ScannedPhoto? other) =>
        other is not null && Sha256 == other.Sha256 && Reading == other.Reading && Codes.AsSpan().SequenceEqual(other.Codes.AsSpan());

    public override int GetHashCode() => HashCode.Combine(Sha256, Reading, Codes.Length);
}

/// <summary>The original was looked through for what it tells beside its picture.</summary>
/// <param name="Sha256">SHA-256 of the original, lower-case hexadecimal.</param>
/// <param name="Reading">What its header says.</param>
/// <param name="Notes">What it tells, each kind once, in order.</param>
public sealed record NotedPhoto(string Sha256, PhotoHeader Reading, ImmutableArray<PrivateNote> Notes) : ReadPhoto(Sha256, Reading)
{
    public bool Equals(NotedPhoto? other) =>
        other is not null && Sha256 == other.Sha256 && Reading == other.Reading && Notes.AsSpan().SequenceEqual(other.Notes.AsSpan());

    public override int GetHashCode() => HashCode.Combine(Sha256, Reading, Notes.Length);
}

/// <summary>The derivatives are made.</summary>
/// <param name="Sha256">SHA-256 of the original, lower-case hexadecimal.</param>
/// <param name="Reading">What its header says.</param>
/// <param name="Measures">What was measured of its pixels.</param>
/// <param name="All">Every derivative; among them at least one print.</param>
public sealed record DevelopedPhoto(string Sha256, PhotoHeader Reading, PhotoMeasures Measures, ImmutableArray<Derivative> All)
    : ReadPhoto(Sha256, Reading)
{
    /// <summary>The folder in which its derivatives lie, named by their content, such as <c>ab/abcdef0123456789abcdef0123456789</c>: the
    /// first 32 hexadecimal digits of the SHA-256 of their list, in a folder of the first two.</summary>
    public string Folder { get; } = FolderOf(All);

    /// <summary>The prints, widest first; at least one.</summary>
    public ImmutableArray<Derivative> Derivatives => Select(DerivativeKind.Print);

    /// <summary>The prints that there are as WebP too, widest first.</summary>
    public ImmutableArray<Derivative> LightPrints => Select(DerivativeKind.LightPrint);

    /// <summary>The tiles, finest first, row by row; none of a picture that is no larger than a tile.</summary>
    public ImmutableArray<Derivative> Tiles => [.. All.Where(derivative => derivative.Kind == DerivativeKind.Tile)];

    /// <summary>The copy to pass on, with the credit line below; null where there is no line.</summary>
    public Derivative? Credited => All.FirstOrDefault(derivative => derivative.Kind == DerivativeKind.Credited);

    public bool Equals(DevelopedPhoto? other) =>
        other is not null
            && Sha256 == other.Sha256
            && Reading == other.Reading
            && Measures == other.Measures
            && All.AsSpan().SequenceEqual(other.All.AsSpan());

    public override int GetHashCode() => HashCode.Combine(Sha256, Reading, All.Length);

    private static string FolderOf(ImmutableArray<Derivative> all)
    {
        var list = string.Concat(all.OrderBy(derivative => derivative.Path, StringComparer.Ordinal)
            .Select(derivative => $"{derivative.Sha256}  {derivative.Path}\n"));
        var digits = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(list)))[..32];
        return $"{digits[..2]}/{digits}";
    }

    private ImmutableArray<Derivative> Select(DerivativeKind kind) =>
        [.. All.Where(derivative => derivative.Kind == kind).OrderByDescending(derivative => derivative.Width)];
}
