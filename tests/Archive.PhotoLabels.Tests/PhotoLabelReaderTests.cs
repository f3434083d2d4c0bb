using System.Collections.Immutable;
using Archive.PhotoLabels.Reading;
using Archive.Publishing.Caching;
using Archive.Publishing.Requests;
using Archive.Wiring.Labels;
using Xunit;

namespace Archive.PhotoLabels.Tests;

/// <summary>Two of the demo's pictures of one cable, in an archive of their own.</summary>
public sealed class PhotoLabelReaderTests : IDisposable
{
    private static readonly string Models = Path.Combine(AppContext.BaseDirectory, "label-models");

    // Of the sleeve alone: around it are those of other cables.
    private const string First = "[0.351, 0.5, 0.253, 0.099]";

    private readonly TemporaryFolder _folder = new();

    public PhotoLabelReaderTests()
    {
        Write("archive.yaml", "title: A station\n");
        Write("frames/f.yaml", """
            - {id: R2-05, name: frame, positions: [{id: S7, ports: [J1..J16]}]}
            - {id: R3-09, name: frame, positions: [{id: S2, ports: [J1..J4]}]}
            - {id: R1-04, name: frame, positions: [{id: S5, ports: [J3]}]}
            - {id: R2-02, name: frame, positions: [{id: S3, ports: [J1]}]}
            - {id: R3-01, name: frame, positions: [{id: S3, ports: [J2]}]}
            - {id: OP-01, name: frame, positions: [{id: S1, ports: [J2]}]}
            - {id: PW-03, name: frame, positions: [{id: S1, ports: [J1]}]}
            - {id: R3-04, name: frame, positions: [{id: S4, ports: [J5]}]}
            """);
        Write("schemes/s.yaml", File.ReadAllText(Path.Combine(Repository.Root, "content/schemes/jacket-print.yaml")));
        Write("kinds/k.yaml", "- {id: coax, name: Coaxial, family: coax}\n");
        Cable("");
        foreach (var (id, from, box) in (IEnumerable<(string, string, string)>)
            [("P-1", "row-2/IMG_2249", First), ("P-2", "row-3/IMG_2264", "[0.351, 0.492, 0.378, 0.108]")])
        {
            Directory.CreateDirectory(_folder["content/photos"]);
            File.Copy(Path.Combine(Repository.Root, $"content/photos/{from}.jpg"), _folder[$"content/photos/{id}.jpg"]);
            Photo(id, $"view: rear\nregions: [{{box: {box}, shows: C-1}}]\n");
        }
    }

    [Fact]
    public void Two_photos_of_a_sleeve_give_its_label_and_a_second_run_decodes_none()
    {
        var result = Read();
        // In the second photo a neighbour reaches into the marked part; the sleeve in its middle is meant.
        var label = Assert.Single(result.Labels, one => one.Cable == "C-1");
        Assert.Equal("0205-07J14 0309-02J02", label.Label);
        Assert.Equal(["R2-05/S07/J14", "R3-09/S02/J02"], label.Means.Select(address => $"{address}"));
        Assert.Equal(["P-1", "P-2"], label.Places.Select(place => place.Photo).Order(StringComparer.Ordinal));
        Assert.True(label.Probability >= label.Alone && label.Alone > 0.9, $"{label.Alone} {label.Probability}");
        Assert.All(label.Places, place => Assert.InRange(place.Box.Top + (place.Box.Height / 2), 0.45, 0.65));
        Assert.Equal(("C-1", PhotographedVerdict.Adds), (label.Cable, label.Witness!.Verdict));
        Assert.Equal(2, result.Decoded);

        var again = Read();
        Assert.Equal(0, again.Decoded);
        Assert.Equal(label.Probability, Assert.Single(again.Labels, one => one.Cable == "C-1").Probability);

        // Another port that is declared may be what is printed: what was read before no longer counts.
        Write("frames/more.yaml", "- {id: R3-02, name: frame, positions: [{id: S1, ports: [J1]}]}\n");
        Assert.Equal(2, Read().Decoded);
    }

    [Fact]
    public void What_contradicts_the_record_is_said_and_changes_no_reading()
    {
        Cable(", ends: [{at: R2-05/S7/J14}, {at: R3-09/S2/J3}]");
        Forget("P-2");
        var label = Assert.Single(Read().Labels);
        Assert.Equal("0205-07J14 0309-02J02", label.Label);
        Assert.Equal(PhotographedVerdict.ContradictsSeen, label.Witness!.Verdict);
        Assert.Equal("the photo says `R3-09/S2/J2`, but the end was seen at `R3-09/S2/J3`", label.Witness.Why);
    }

    [Fact]
    public void What_a_photo_hides_is_not_read()
    {
        Forget("P-2");
        Photo("P-1", $"view: rear\nregions: [{{box: {First}, shows: C-1}}]\nredact: [{{box: {First}}}]\n");
        Assert.Equal((0, 1), (Read().Labels.Length, Read().Photos));
    }

    [Fact]
    public void A_part_that_shows_whole_frames_alone_is_not_read()
    {
        Photo("P-1", $"view: rear\nregions: [{{box: {First}, shows: [R2-05, R3-09]}}]\n");
        Photo("P-2", $"view: rear\nregions: [{{box: {First}, shows: R2-05/S7}}]\n");
        Assert.Equal(1, Read().Photos);
    }

    [Fact]
    public void Without_models_it_is_said_that_they_are_missing()
    {
        var request = new ReadingRequest(_folder["content"], [], false);
        var result = PhotoLabelReader.Read(Options(), request, null, TestContext.Current.CancellationToken);
        Assert.Contains("cannot be read", result.Problem, StringComparison.Ordinal);
        Assert.Empty(result.Labels);
    }

    public void Dispose() => _folder.Dispose();

    private PhotoLabelResult Read() =>
        PhotoLabelReader.Read(Options(), new ReadingRequest(Models, [], false), null, TestContext.Current.CancellationToken);

    private void Forget(string id)
    {
        foreach (var file in Directory.GetFiles(_folder["content/photos"], id + ".*")) File.Delete(file);
    }

    private BuildOptions Options()
    {
        ImmutableArray<string> themes = [Path.Combine(Repository.Root, "themes")];
        return new BuildOptions(_folder["content"], "", CacheFolder.Open(_folder["cache"], _folder["content"]), themes);
    }

    private void Cable(string more) => Write("cables/c.yaml", $"- {{id: C-1, kind: coax{more}}}\n");

    private void Photo(string id, string more) => Write($"photos/{id}.yaml", $"id: {id}\nfile: {id}.jpg\n{more}");

    private void Write(string path, string text)
    {
        var full = _folder[$"content/{path}"];
        Directory.CreateDirectory(Path.GetDirectoryName(full)!);
        File.WriteAllText(full, text);
    }
}
