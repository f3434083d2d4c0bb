using Archive.Photos.Caching;
using Archive.Photos.Images;
using Archive.Photos.Measures;
using Archive.Photos.Processing;
using CsCheck;
using NetVips;
using Xunit;

namespace Archive.Photos.Tests;

/// <summary>Sharpness, light and likeness of photos.</summary>
public sealed class MeasuringTests : Studio
{
    /// <summary>
    /// By hand: a chessboard of 0 and 255 bends by ±1,020 at every place, so the variance is 1,020² but for the mean, which is 0 over an
    /// even field.
    /// </summary>
    [Fact]
    public void The_variance_of_a_chessboard()
    {
        var field = Enumerable.Range(0, 100).Select(i => ((i % 10) + (i / 10)) % 2 * 255).ToArray();
        Assert.Equal(1020.0 * 1020, PhotoMeasures.LaplacianVariance(field, 10, 10));
        Assert.Equal(0, PhotoMeasures.LaplacianVariance(new int[100], 10, 10));
        Assert.Equal(0, PhotoMeasures.LaplacianVariance([1, 2, 3, 4], 2, 2));
    }

    /// <summary>Against another's convolution: libvips with the same mask, and its standard deviation.</summary>
    [Fact]
    public void The_variance_is_that_of_a_convolution()
    {
        var random = new Random(11);
        var field = Enumerable.Range(0, 50 * 40).Select(_ => random.Next(256)).ToArray();
        using var image = Image.NewFromMemory(field.Select(value => (float)value).ToArray(), 50, 40, 1, Enums.BandFormat.Float);
        using var mask = Image.NewFromArray(new double[,] { { 0, 1, 0 }, { 1, -4, 1 }, { 0, 1, 0 } });
        using var bent = image.Conv(mask, precision: Enums.Precision.Float);
        using var inner = bent.Crop(1, 1, 48, 38);

        // Deviate divides by n - 1.
        const double count = 48 * 38;
        Assert.Equal(inner.Deviate() * inner.Deviate() * (count - 1) / count, PhotoMeasures.LaplacianVariance(field, 50, 40), 3);
    }

    [Fact]
    public void A_blurred_photo_is_found_among_its_camera_s()
    {
        var shots = Enumerable.Range(0, 6).Select(i => new PhotoSample($"P-{i}", "K-100", Measured($"{i}.jpg", Grained(i)))).ToList();
        using var scene = Grained(6);
        foreach (var (sigma, isBlurred) in new[] { (0.6, false), (3.0, true), (6.0, true) })
        {
            using var soft = scene.Gaussblur(sigma);
            using var cast = soft.Cast(Enums.BandFormat.Uchar);
            var shot = new PhotoSample("P-6", "K-100", Measured("soft.jpg", cast.Copy(interpretation: Enums.Interpretation.Srgb)));
            Assert.Equal(isBlurred ? ["P-6"] : [], Blur.Among([.. shots, shot]).Select(blurred => blurred.Shot.Id));
            Assert.Empty(Blur.Among([.. shots, shot with { Camera = "another" }]));
        }
    }

    [Theory, InlineData(4, 0), InlineData(5, 1)]
    public void Four_photos_are_too_few_to_judge_by(int photos, int blurred)
    {
        var shots = Enumerable.Range(0, photos)
            .Select(i => new PhotoSample($"{i}", "", new PhotoMeasures(i == 0 ? 24 : 100, 0.5, 0, 0, new(0, 0), new Miniature(""))))
            .ToList();
        Assert.Equal(blurred, Blur.Among(shots).Length);
        Assert.Empty(Blur.Among([.. shots.Skip(1), shots[0] with { Measures = shots[0].Measures with { Sharpness = 25 } }]));
    }

    [Theory, InlineData(3, "too dark: 100 %"), InlineData(252, "overexposed: 100 %"), InlineData(120, null)]
    public void Light_is_judged(int shade, string? told)
    {
        var fault = Exposure.ProblemOf(Measured("a.png", Picture.Flat(800, 600, shade, shade, shade)));
        if (told is null) Assert.Null(fault);
        else Assert.StartsWith(told, fault, StringComparison.Ordinal);
    }

    /// <summary>
    /// The same scene in another size, other light, other compression and orientation looks the same; another scene does not.
    /// </summary>
    [Fact]
    public void The_same_scene_looks_the_same()
    {
        using var scene = Grained(1);
        var one = Measured("one.jpg", scene.Copy()).Likeness;
        using var small = scene.Resize(0.37);
        using var dim = (scene * 0.8).Cast(Enums.BandFormat.Uchar).Copy(interpretation: Enums.Interpretation.Srgb);
        using var shifted = scene.Crop(9, 7, scene.Width - 12, scene.Height - 10);
        using var turned = scene.Rot270().Mutate(picture => picture.Set(GValue.GIntType, "orientation", 6));

        foreach (var same in new[] { small, dim, shifted, turned })
            Assert.InRange(one.DistanceTo(Measured("same.jpg", same.Copy()).Likeness), 0, SimilarPhotos.MostApart);
        for (var i = 2; i < 8; i++) Assert.True(one.DistanceTo(Measured("other.jpg", Grained(i)).Likeness) > 3 * SimilarPhotos.MostApart);
    }

    /// <summary>Against comparing every photo with every other.</summary>
    [Fact]
    public void Bands_find_every_pair() => Gen.Select(Gen.Int[0, 1000], Gen.Int[2, 60]).Sample((seed, count) =>
    {
        var random = new Random(seed);
        var shots = new List<PhotoSample>();
        for (var i = 0; i < count; i++)
        {
            var likeness = i == 0 || random.Next(3) == 0
                ? new ImageFingerprint((ulong)random.NextInt64(), (ulong)random.NextInt64())
                : shots[random.Next(i)].Measures.Likeness;
            for (var flips = random.Next(12); flips > 0; flips--)
            {
                likeness = random.Next(2) == 0
                    ? likeness with { Across = likeness.Across ^ (1UL << random.Next(64)) }
                    : likeness with { Down = likeness.Down ^ (1UL << random.Next(64)) };
            }

            shots.Add(new PhotoSample($"{i}", "", new PhotoMeasures(1, 1, 0, 0, likeness, new Miniature(""))));
        }

        // Photos that look exactly the same count as one.
        var firsts = shots.GroupBy(shot => shot.Measures.Likeness).Select(group => group.First()).ToList();
        var expected = from i in Enumerable.Range(0, firsts.Count)
                       from j in Enumerable.Range(i + 1, firsts.Count - i - 1)
                       where firsts[i].Measures.Likeness.DistanceTo(firsts[j].Measures.Likeness) <= SimilarPhotos.MostApart
                       select (firsts[i].Id, firsts[j].Id);
        var same = from shot in shots
                   let first = firsts.First(other => other.Measures.Likeness == shot.Measures.Likeness)
                   where first != shot
                   select (first.Id, shot.Id);
        Assert.Equal(
            expected.Concat(same).ToHashSet(), SimilarPhotos.Among(shots).Select(pair => (pair.First.Id, pair.Second.Id)).ToHashSet());
    });

    /// <summary>Ten thousand photos: a quadratic search would compare fifty million.</summary>
    [Fact]
    public void Ten_thousand_photos_are_compared_in_a_moment()
    {
        var random = new Random(3);
        var shots = Enumerable.Range(0, 10_000).Select(i => new PhotoSample($"{i}", "", new PhotoMeasures(1, 1, 0, 0,
            i % 2 == 0 ? new ImageFingerprint((ulong)random.NextInt64(), (ulong)random.NextInt64()) : new(0, 0), new Miniature(""))))
                .ToList();
        Assert.Equal(4_999, SimilarPhotos.Among(shots).Length);
    }

    [Theory, InlineData(1, 1), InlineData(15, 15), InlineData(16, 16), InlineData(4000, 3), InlineData(3, 4000)]
    public void A_picture_of_any_size_is_measured(int width, int height) => Measured("a.png", Picture.Flat(width, height, 100, 100, 100));

    /// <summary>What was measured while developing is what is measured without; and neither twice.</summary>
    [Fact]
    public void Measuring_and_developing_agree()
    {
        var name = Write("a.jpg", Picture.Encoded(Grained(1), ".jpg"));
        var box = new FractionBox(0, 0, 0.9, 0.9);
        var developed = Develop(name, new PhotoRecipe { Redactions = [box] });
        var tally = new Tally();
        var measured = new PhotoProcessor(CacheFolder).MeasureAll([Source(name)], tally, TestContext.Current.CancellationToken);
        Assert.Equal((0, developed.Measures), (tally.Decoded, Assert.IsType<MeasuredPhoto>(measured[0]).Measures));

        Directory.Delete(CacheFolder, recursive: true);
        measured = new PhotoProcessor(
            CacheFolder).MeasureAll([Source(name), Source(Write("bad.jpg", "no photo"u8))], tally, TestContext.Current.CancellationToken);
        Assert.Equal(1, tally.Decoded);
        Assert.Equal(developed.Measures, Assert.IsType<MeasuredPhoto>(measured[0]).Measures);
        Assert.IsType<UnusablePhoto>(measured[1]);
    }

    private PhotoMeasures Measured(string name, Image image)
    {
        using (image) Save(image, name);
        var outcome = new PhotoProcessor(CacheFolder).MeasureAll([Source(name)], null, TestContext.Current.CancellationToken)[0];
        return Assert.IsType<MeasuredPhoto>(outcome).Measures;
    }

    /// <summary>Boards of light and dark, drawn by chance, with a camera's grain.</summary>
    private static Image Grained(int seed)
    {
        var random = new Random(seed);
        var shades = Enumerable.Range(0, 12 * 8).Select(_ => random.Next(40, 220)).ToArray();
        var pixels = new byte[1200 * 800 * 3];
        for (var i = 0; i < 1200 * 800; i++)
        {
            var (x, y) = (i % 1200, i / 1200);
            var shade = shades[(y / 100 * 12) + (x / 100)] + (x % 20 < 2 || y % 25 < 2 ? -30 : 0) + random.Next(-4, 5);
            Array.Fill(pixels, (byte)shade, 3 * i, 3);
        }

        return Picture.OfPixels(pixels, 1200, 800);
    }
}
