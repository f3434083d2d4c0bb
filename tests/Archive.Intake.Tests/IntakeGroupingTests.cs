using Archive.Diagnostics.Rendering;
using Archive.Photos.Images;
using Archive.Records.Model;
using Archive.Records.Reading;
using CsCheck;
using Xunit;

namespace Archive.Intake.Tests;

/// <summary>What new photos seem to show, and how they are sorted.</summary>
public sealed class IntakeGroupingTests
{
    private static readonly ArchiveModel Hall = WrittenArchive.Model(
        (
            "frames/f.yaml",
            "- {id: R2, name: two}\n- {id: R2-05, name: five}\n- {id: R2-06, name: six, was: [OLD-6]}\n- {id: '12', name: twelve}\n"),
        ("kinds/k.yaml", "- {id: coax, name: coax, family: coax}\n"),
        ("cables/c.yaml", "- {id: C-0417, kind: coax, ends: [{at: R2-05}, {at: R2-06}]}\n"),
        ("photos/p.yaml", "- {id: P-2231, withdrawn: twice recorded}\n"));

    private static readonly SubjectNames Names = new(Hall);

    [Theory]
    [InlineData("R2-05_rear_1", "R2-05"), InlineData(
        "r2 05 rear", "R2-05"), InlineData("IMG_2231 (C-0417, R2-06)", "C-0417 R2-06"), InlineData("R2_05-R2_05", "R2-05")]
    [InlineData("IMG_12", ""), InlineData("12", "12"), InlineData(
        "coax", ""), InlineData("P-2231", ""), InlineData("XR2-05", ""), InlineData("R2-055", "R2"), InlineData("", "")]
    public void Ids_are_found_in_names(string name, string ids) => Assert.Equal(ids, string.Join(' ', Names.IdsIn(name)));

    [Theory]
    [InlineData("R2-05_rear", "rear"), InlineData("Back of five", "rear"), InlineData(
        "FRONT", "front"), InlineData("front and rear", null), InlineData("frontier", null), InlineData("overhead", "above")]
    public void Views_are_found_in_names(string name, string? view) => Assert.Equal(view, SubjectNames.ViewIn(name));

    [Theory]
    [InlineData("https://archive.example/sketch/frames/R2-05/", "R2-05"), InlineData(
        "https://archive.example/sketch/frames/R2-05", "R2-05"), InlineData("HTTPS://ARCHIVE.EXAMPLE/SKETCH/frames/OLD-6/", "R2-06")]
    [InlineData("https://archive.example/sketch/frames/R2-05/index.html?a=1#x", "R2-05"), InlineData(
        "R2-05", "R2-05"), InlineData(" R2-05\n", "R2-05"), InlineData("https://elsewhere.example/x/frames/R2-05/", "R2-05")]
    [InlineData("https://archive.example/sketch/frames/R9-99/", null), InlineData("https://maker.example/serial/R2-05", null), InlineData(
        "https://archive.example/sketch/", null), InlineData("P-2231", null), InlineData("", null)]
    public void Codes_of_labels_name_records(string code, string? id) => Assert.Equal(id, Names.IdOf(code));

    [Fact]
    public void A_label_speaks_for_what_follows_it_until_the_next_or_a_long_pause()
    {
        var groups = Guess(
            Photo("IMG_1.jpg", 0),
            Photo("IMG_2.jpg", 1, code: "R2-05"),
            Photo("IMG_3.jpg", 2),
            Photo("IMG_4_C-0417.jpg", 3),
            Photo("IMG_5.jpg", 12),
            Photo("IMG_6.jpg", 13, code: "R2-06"),
            Photo("IMG_7.jpg", 23),
            Photo("IMG_8.jpg", 34));
        Assert.Equal([
            "IMG_1.jpg= IMG_2.jpg=R2-05 IMG_3.jpg=R2-05 IMG_4_C-0417.jpg=C-0417 IMG_5.jpg=R2-05 IMG_6.jpg=R2-06 IMG_7.jpg=R2-06",
            "IMG_8.jpg="
        ], groups.Select(Spell));
        Assert.Equal(("label", "the label in it"), (groups[0].Photos[1].View, groups[0].Photos[1].ViewFrom));
        Assert.Equal("the label in IMG_2.jpg", groups[0].Photos[2].ShowsFrom);
    }

    [Fact]
    public void Each_camera_has_its_own_order_and_photos_without_a_time_follow_their_names()
    {
        var groups = Guess(
            Photo("b/IMG_10.jpg", null),
            Photo("b/IMG_9.jpg", null, code: "R2-05"),
            Photo("a_1.jpg", 0, code: "R2-05", camera: "A"),
            Photo("b_1.jpg", 1, code: "R2-06", camera: "B"),
            Photo("a_2.jpg", 2, camera: "A"),
            Photo("b_2.jpg", 3, camera: "B"),
            Photo("R2-06/c.jpg", null));
        Assert.Equal(
            ["a_1.jpg=R2-05 a_2.jpg=R2-05", "b_1.jpg=R2-06 b_2.jpg=R2-06", "R2-06/c.jpg=R2-06", "b/IMG_9.jpg=R2-05 b/IMG_10.jpg=R2-05"],
            groups.Select(Spell));
    }

    /// <summary>Two labels in one picture, or a code of somebody else's, say nothing of what follows.</summary>
    [Fact]
    public void What_is_not_clear_is_not_carried_on()
    {
        var groups = Guess(
            Photo("1.jpg", 0, ["R2-05", "R2-06"], ""),
            Photo("2.jpg", 1),
            Photo("3.jpg", 2, code: "https://maker.example/serial/77"),
            Photo("4.jpg", 3));
        Assert.Equal(["1.jpg=R2-05,R2-06 2.jpg= 3.jpg= 4.jpg="], groups.Select(Spell));
    }

    [Fact]
    public void Ids_go_on_from_the_last_and_are_of_one_width()
    {
        var ids = NewIds.OfPhotos(Hall);
        Assert.Equal(["P-2232", "P-2233"], new[] { ids.Next(), ids.Next() });
        Assert.Equal("P-0001", NewIds.OfPhotos(WrittenArchive.Model(("frames/f.yaml", "- {id: A-01, name: one}\n"))).Next());
        Assert.Equal("P-00010", NewIds.OfPhotos(WrittenArchive.Model(
            ("photos/p.yaml", "- {id: P-00009, withdrawn: x}\n- {id: P-7, withdrawn: x}\n"))).Next());
    }

    [Fact]
    public void A_frame_without_photos_between_two_that_have_labels_is_noticed()
    {
        var record = WrittenArchive.Model(("frames/f.yaml", "- {id: A-04, name: a}\n- {id: A-05, name: b}\n- {id: A-06, name: c}\n"
            + "- {id: A-07, name: d}\n- {id: A-08, name: e}\n- {id: A-10, name: f}\n"));
        var groups = new IntakeGrouping(new SubjectNames(record), NewIds.OfPhotos(record), TimeSpan.FromMinutes(10)).Group(
        [
            Photo("1.jpg", 0, code: "A-04"), Photo("2.jpg", 1), Photo("3.jpg", 2), Photo("4.jpg", 3, code: "A-06"), Photo("5.jpg", 4),
            Photo("6.jpg", 5, code: "A-08"), Photo("A-07.jpg", 6), Photo("7.jpg", 20, code: "A-10"),
        ]);
        var missed = Assert.Single(new MissedLabels(record).Find(groups));
        Assert.Equal(("A-05", "A-04", "A-06"), (missed.Id, missed.Before, missed.After));
        Assert.Equal(["2.jpg", "3.jpg"], missed.Photos);
    }

    /// <summary>Rows go on as the hall says, whatever the ids are.</summary>
    [Fact]
    public void Frames_stand_in_the_order_of_their_row()
    {
        var record = WrittenArchive.Model(
            ("frames/f.yaml", "- {id: X, name: a}\n- {id: B, name: b}\n- {id: K, name: c}\n"),
            ("halls/h.yaml", "id: H\nas_found: true\noutline: [[0, 0], [9000, 0], [9000, 9000], [0, 9000]]\n"
                + "rows:\n- {id: R, at: [0, 0], runs: east, faces: south, frames: [K, {gap: 1 m}, X, B]}\n"));
        var groups = new IntakeGrouping(new SubjectNames(record), NewIds.OfPhotos(record), TimeSpan.FromMinutes(10)).Group(
            [Photo("1.jpg", 0, code: "B"), Photo("2.jpg", 1, code: "K")]);
        Assert.Equal("X", Assert.Single(new MissedLabels(record).Find(groups)).Id);
    }

    /// <summary>Names that try to be YAML, or to lead elsewhere, become text or are refused.</summary>
    [Theory, InlineData("IMG 1.jpg"), InlineData("a; [b], #c.jpg"), InlineData("\"quoted\" 'q'.jpg"), InlineData("-1.jpg"), InlineData(
        "null"), InlineData("ümläut 記.jpg"), InlineData("{{ x }}.jpg"), InlineData("1e3.jpg"), InlineData("&a *b !c.jpg")]
    public void A_sidecar_reads_back_as_it_was_meant(string name)
    {
        var photo =
            new IntakePhoto("P-1", "rear", ["R2-05", "12"], "the file's name", "the label in x\ny: [z].jpg") { Photo = Photo(name, 0) };
        Assert.True(Sidecar.IsSound(Sidecar.Text(photo), name), Sidecar.Text(photo));
        Assert.False(Sidecar.IsSound(Sidecar.Text(photo), "other.jpg"));
    }

    /// <summary>
    /// Every text reads back the same, or the reader refuses the name and intake leaves the photo out; no text becomes a key, an alias or a
    /// second record.
    /// </summary>
    [Fact]
    public void Whatever_texts_contain_a_sidecar_reads_back_the_same() =>
        Gen.Select(Hostile, Hostile, Hostile).Sample((name, shown, from) =>
        {
            var fileName = name + ".jpg";
            var photo = new IntakePhoto("P-1", "rear", [shown, "R2-05"], from, from) { Photo = Photo("x.jpg", 0) with { Path = fileName } };
            var text = Sidecar.Text(photo);
            var read = RecordReader.Read(InMemoryFolder.Empty.With("archive.yaml", "title: trial\n").With("photos/trial.yaml", text));
            var record = Assert.IsType<Photo>(Assert.Single(read.Records));
            Assert.Equal(("P-1", PhotoView.Rear), (record.Id, record.View?.Value));
            Assert.Equal(new string('a', 64), record.Sha256?.Value);
            Assert.Equal(fileName.Trim(), record.File?.Value.Trim());
            Assert.DoesNotContain(text, VisibleText.IsBidi);
        });

    // A folder is part of a path, so no name has a slash.
    private static readonly string[] Pieces =
    [
        " #", ": ", "\"", "'", "\\", "\n", "\r\n", "\t", "\0", "\u001b[2J", "\u0085", "\u2028",
        "\u202e", "\ufeff", "- ", "&a ", "*a", "!t ", "{", "]", ",", "%", "---\n", "null", "1e3",
        "\U0001D7D8", "é", "\nid: P-2\n", "a", " ",
    ];

    private static readonly Gen<string> Hostile = Gen.Int[0, Pieces.Length - 1]
        .Select(at => Pieces[at]).Array[1, 8]
        .Select(parts => string.Concat(parts));

    private static System.Collections.Immutable.ImmutableArray<IntakeGroup> Guess(params IncomingPhoto[] photos) =>
        new IntakeGrouping(Names, NewIds.OfPhotos(Hall), TimeSpan.FromMinutes(10)).Group(photos);

    private static string Spell(IntakeGroup group) =>
        string.Join(' ', group.Photos.Select(photo => $"{photo.Path}={string.Join(',', photo.Shows)}"));

    private static IncomingPhoto Photo(string path, int? minute, string? code = null, string camera = "") =>
        Photo(path, minute, code is null ? [] : [code], camera);

    private static IncomingPhoto Photo(string path, int? minute, string[] codes, string camera) => new(
        path, new string('a', 64),
        new PhotoHeader(
            PhotoFormat.Jpeg,
            100,
            100,
            Orientation.TopLeft,
            minute is { } m ? new DateTime(2026, 5, 12, 10, 0, 0).AddMinutes(m) : null,
            null,
            camera), [.. codes]);
}
