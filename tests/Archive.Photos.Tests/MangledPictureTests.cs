using Archive.Photos.Images;
using Archive.Photos.Processing;
using Archive.Photos.Rights;
using CsCheck;
using Xunit;

namespace Archive.Photos.Tests;

/// <summary>
/// Pictures of every kind that is taken, with bytes changed, cut out and put in anywhere, through everything that is done to a photo: an
/// outcome each time, never an exception.
/// </summary>
public sealed class MangledPictureTests : Studio
{
    private static readonly PhotoRecipe Full = new()
    {
        Watermark = "Marrow Point Radio Trust",
        Redactions = [new FractionBox(0.1, 0.1, 0.3, 0.3)],
        Rights = new PhotoRights("A picture", "H. Kessock", "Marrow Point Radio Trust", "CC-BY-4.0"),
    };

    public static TheoryData<string, string> Kinds => new()
    {
        { "colour", ".jpg" }, { "colour", ".jpg[interlace]" }, { "grey", ".jpg" }, { "inks", ".jpg" }, { "turned", ".jpg" },
        { "colour", ".png" },
            { "colour", ".png[interlace]" },
            { "grey", ".png" },
            { "clear", ".png" },
            { "deep", ".png" },
            { "colour", ".png[palette]" },
            { "colour", ".webp" },
            { "clear", ".webp[lossless]" },
            { "film", ".webp" },
            { "colour", ".tif" },
            { "film", ".tif" },
            { "deep", ".tif[compression=deflate,predictor=horizontal]" },
            { "clear", ".tif[compression=lzw]" },
            { "colour", ".tif[tile,tile-width=16,tile-height=16,compression=jpeg]" },
            { "colour", ".tif[bigtiff]" },
            { "inks", ".tif" },
            { "float", ".tif" },
            { "colour", ".tif[tile,tile-width=32,tile-height=32,pyramid]" },
            { "turned", ".tif" },
        };

    [Theory, MemberData(nameof(Kinds))]
    public void Damage_anywhere_is_borne(string kind, string format)
    {
        var sound = Sample.Noted(kind == "turned" ? "colour" : kind, format, kind == "turned" ? 6 : 1);
        var head = Math.Min(sound.Length, 1500);
        var wound = Gen.Select(Gen.OneOf(Gen.Int[0, head - 1], Gen.Int[0, sound.Length - 1]), Gen.Byte, Gen.Int[0, 3]);
        var processor = new PhotoProcessor(CacheFolder);
        Assert.All(Everything(processor, sound), outcome => Assert.IsType<ReadPhoto>(outcome, exactMatch: false));
        wound.List[1, 8].Sample(wounds => Assert.All(Everything(processor, Mangled(sound, wounds)), Assert.NotNull), iter: 30, threads: 1);
    }

    // Each step on its own, for one that fails early must not hide what a later one would do.
    private PhotoResult[] Everything(PhotoProcessor processor, byte[] bytes)
    {
        var source = Source(Write("mangled.jpg", bytes));
        var token = TestContext.Current.CancellationToken;
        PhotoResult[] outcomes =
        [
            .. processor.InspectAll([source], null, token), .. processor.MeasureAll([source], null, token),
            .. processor.ScanAll([source], null, token), .. processor.DevelopAll([new PhotoRequest(source, Full)], null, token),
            .. processor.FindNotes([source], token), .. processor.StripAll([source], token),
        ];
        return outcomes;
    }

    private static byte[] Mangled(byte[] sound, List<(int At, byte Value, int Kind)> wounds)
    {
        var bytes = sound.ToList();
        foreach (var (at, value, kind) in wounds)
        {
            if (at >= bytes.Count) continue;
            if (kind == 0) bytes.RemoveRange(at, Math.Min(value, bytes.Count - at));
            else if (kind == 1) bytes.InsertRange(at, Enumerable.Repeat(value, value));
            else bytes[at] = kind == 2 ? value : (byte)(bytes[at] ^ (1 << (value % 8)));
        }

        return [.. bytes];
    }
}
