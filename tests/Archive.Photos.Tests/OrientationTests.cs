using Archive.Photos.Images;
using NetVips;
using Xunit;

namespace Archive.Photos.Tests;

/// <summary>EXIF 2.32, tag 0x0112: the eight orientations.</summary>
public sealed class OrientationTests : Studio
{
    public static TheoryData<int> Eight => [1, 2, 3, 4, 5, 6, 7, 8];

    /// <summary>The public set in samples/orientation shows the letter F; each of its nine files must come out as file 1 does.</summary>
    [Theory]
    [InlineData(0), InlineData(1), InlineData(2), InlineData(3), InlineData(4), InlineData(5), InlineData(6), InlineData(7), InlineData(8)]
    public void The_public_set_comes_out_upright(int number)
    {
        var upright = Picture.Read(Develop(Sample(1)).Derivatives[0]);
        var photo = Develop(Sample(number));

        Assert.Equal((Orientation)Math.Max(1, number), photo.Reading.Orientation);
        Assert.Equal((50, 70), (photo.Reading.Width, photo.Reading.Height));
        Assert.True(Picture.Read(photo.Derivatives[0]).DistanceTo(upright) < 3);
    }

    /// <summary>
    /// Read strip by strip while it is turned: the same as turned in memory, and the tiles lie as the upright picture does.
    /// </summary>
    [Theory, MemberData(nameof(Eight))]
    public void Tiles_lie_as_the_upright_picture_does(int orientation)
    {
        using var scope = new ImageScope();
        using var scene = Picture.Scene(2501, 507);
        using var tagged = scene.Mutate(picture => picture.Set(GValue.GIntType, "orientation", orientation));
        var photo = Develop(Save(tagged, "a.jpg", "[Q=95]"), new PhotoRecipe { Widths = [2501] });
        var upright = Pixels.Of(OrientationTransform.From((Orientation)orientation).Upright(scope, scene));

        Assert.Equal((upright.Width, upright.Height), (photo.Reading.Width, photo.Reading.Height));
        Assert.True(Picture.ReadLevel(photo, 1).DistanceTo(upright) < 2);
        Assert.True(Picture.Read(photo.Derivatives[0]).DistanceTo(upright) < 2);
    }

    /// <summary>A TIFF holds strips of any number of rows, or tiles, and is read from top to bottom once.</summary>
    [Theory, InlineData(8, false), InlineData(24, false), InlineData(200, false), InlineData(507, false), InlineData(64, true)]
    public void A_turned_tiff_is_read_however_it_is_cut(int rows, bool isTiled)
    {
        using var scope = new ImageScope();
        using var scene = Picture.Scene(701, 507);
        using var tagged = scene.Mutate(picture => picture.Set(GValue.GIntType, "orientation", 6));
        tagged.Tiffsave(PathOf("a.tif"), tile: isTiled, tileWidth: 64, tileHeight: rows);
        var source = Source(PathOf("a.tif"));
        using var pixels = ImageReader.Decode(source.FullPath, ImageReader.Read(source.FullPath));

        var upright = OrientationTransform.From(Orientation.RightTop).Upright(scope, scene);
        Assert.Equal(upright.WriteToMemory<byte>(), pixels.View.WriteToMemory<byte>());
    }

    [Theory, MemberData(nameof(Eight))]
    public void Turning_a_picture_moves_each_pixel_as_the_table_says(int orientation)
    {
        using var scope = new ImageScope();
        using var stored = Picture.Scene(7, 5);
        var turn = OrientationTransform.From((Orientation)orientation);
        var (before, after) = (Pixels.Of(stored), Pixels.Of(turn.Upright(scope, stored)));
        using var pixels = PixelBuffer.From(stored, turn);
        Assert.Equal(after.Bytes, pixels.View.WriteToMemory<byte>());

        Assert.Equal(turn.Swap ? (5, 7) : (7, 5), (after.Width, after.Height));
        for (var v = 0; v < after.Height; v++)
        {
            for (var u = 0; u < after.Width; u++)
            {
                var (x, y) = turn.Swap ? (v, u) : (u, v);
                Assert.Equal(before[turn.FlipX ? before.Width - 1 - x : x, turn.FlipY ? before.Height - 1 - y : y], after[u, v]);
            }
        }
    }

    /// <summary>The table of EXIF in its own words: where the first row and the first column of the stored picture lie when it is
    /// upright.</summary>
    [Theory]
    [InlineData(1, "top", "left"), InlineData(2, "top", "right"), InlineData(3, "bottom", "right"), InlineData(4, "bottom", "left")]
    [InlineData(5, "left", "top"), InlineData(6, "right", "top"), InlineData(7, "right", "bottom"), InlineData(8, "left", "bottom")]
    public void The_first_row_and_column_lie_where_the_standard_says(int orientation, string row, string column)
    {
        using var scope = new ImageScope();
        // red: first row; green: first column
        using var stored = Picture.OfPixels([1, 1, 0, 1, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0, 0, 0, 0, 0], 3, 2);
        var upright = Pixels.Of(OrientationTransform.From((Orientation)orientation).Upright(scope, stored));

        Assert.Equal(row, SideWhere(upright, pixel => pixel.R == 1));
        Assert.Equal(column, SideWhere(upright, pixel => pixel.G == 1));
    }

    /// <summary>The eight compose as the dihedral group of order 8.</summary>
    [Fact]
    public void The_eight_are_the_dihedral_group()
    {
        using var scope = new ImageScope();
        using var scene = Picture.Scene(6, 6);
        var looks = Enumerable.Range(1, 8)
            .ToDictionary(o => Convert.ToHexString(OrientationTransform.From((Orientation)o).Upright(scope, scene).WriteToMemory<byte>()));
        Assert.Equal(8, looks.Count);
        int Then(int a, int b) => looks[Convert.ToHexString(
            OrientationTransform.From((Orientation)b)
                .Upright(scope, scope.Track(OrientationTransform.From((Orientation)a).Upright(scope, scene).CopyMemory()))
                .WriteToMemory<byte>())];

        for (var a = 1; a <= 8; a++)
        {
            Assert.Equal(a, Then(a, 1));
            Assert.Contains(Enumerable.Range(1, 8), b => Then(a, b) == 1);
            for (var b = 1; b <= 8; b++) Assert.InRange(Then(a, b), 1, 8);
        }

        Assert.Equal(3, Then(6, 6));
        Assert.Equal(1, Then(6, 8));
        Assert.Equal(1, Then(5, 5));
        Assert.Equal(1, Then(7, 7));
        Assert.Equal(1, Then(2, 2));
        Assert.Equal(1, Then(3, 3));
        Assert.Equal(1, Then(4, 4));
    }

    /// <summary>0 and 9 are no orientations: viewers show such a picture as it is stored.</summary>
    [Theory, InlineData(0), InlineData(9)]
    public void A_value_that_is_none_of_the_eight_means_upright(int value)
    {
        using var scene = Picture.Scene(60, 40);
        using var tagged = scene.Mutate(picture => picture.Set(GValue.GIntType, "orientation", value));
        Save(tagged, "odd.jpg");

        Assert.Equal((60, 40), (Develop("odd.jpg").Derivatives[0].Width, Develop("odd.jpg").Derivatives[0].Height));
    }

    private string Sample(int number)
    {
        var name = $"orientation_{number}.jpg";
        File.Copy(Path.Combine(AppContext.BaseDirectory, "samples", "orientation", name), PathOf(name), overwrite: true);
        return name;
    }

    private static string SideWhere(Pixels picture, Func<(int R, int G, int B), bool> marked)
    {
        var rows = Enumerable.Range(0, picture.Width).ToArray();
        var columns = Enumerable.Range(0, picture.Height).ToArray();
        return rows.All(x => marked(picture[x, 0])) ? "top"
            : rows.All(x => marked(picture[x, picture.Height - 1])) ? "bottom"
            : columns.All(y => marked(picture[0, y])) ? "left"
            : columns.All(y => marked(picture[picture.Width - 1, y])) ? "right" : "nowhere";
    }
}
