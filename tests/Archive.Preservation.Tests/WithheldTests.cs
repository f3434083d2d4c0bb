using Xunit;

namespace Archive.Preservation.Tests;

/// <summary>Originals that show what <c>redact</c> hides: never silently sealed, never silently left out.</summary>
public sealed class WithheldTests : IDisposable
{
    private const string Hidden = "data/record/photos/b.jpg";
    private readonly SealedStation _station = new(withHidden: true);

    public void Dispose() => _station.Dispose();

    [Fact]
    public void Without_a_word_nothing_is_sealed()
    {
        var fault = Assert.Single(Assert.IsType<SealOutcome.Withheld>(_station.Seal()).Faults);
        Assert.Equal(("AF1227", "content/photos/p.yaml:2:41"), (fault.Code, fault.Place.ToString()));
        Assert.False(Directory.Exists(_station["vault/small"]));
    }

    [Fact]
    public void They_are_sealed_with_everything_else()
    {
        _station.Seal(withheld: Withholding.Include);
        Assert.Contains(Hidden, _station.Files());
        Assert.False(File.Exists(_station["vault/small/withheld.txt"]));
    }

    [Fact]
    public void They_are_left_out_and_named()
    {
        // A second copy under another name, in no record, and one whose record was withdrawn.
        File.Copy(_station["content/photos/b.jpg"], _station["content/photos/copy.jpg"]);
        _station.Seal(withheld: Withholding.LeaveOut);
        Assert.DoesNotContain(Hidden, _station.Files());
        Assert.DoesNotContain("data/record/photos/copy.jpg", _station.Files());
        Assert.True(_station.Audit().IsValid);
        var list = File.ReadAllText(_station["vault/small/withheld.txt"]);
        Assert.Contains($"  {Hidden}\n", list, StringComparison.Ordinal);
        Assert.Contains("  data/record/photos/copy.jpg\n", list, StringComparison.Ordinal);
        Assert.Contains("not in this bag: 2 files, left out.", File.ReadAllText(_station["vault/small/bag-info.txt"]), StringComparison.Ordinal);
        Assert.Equal(["small"], Directory.GetFileSystemEntries(_station["vault"]).Select(Path.GetFileName));
        var original = File.ReadAllBytes(_station["content/photos/b.jpg"]);
        Assert.DoesNotContain(_station.Files(), file => new FileInfo(_station["vault/small/" + file]).Length == original.Length && File.ReadAllBytes(_station["vault/small/" + file]).AsSpan().SequenceEqual(original));
    }

    [Fact]
    public void They_are_sealed_apart()
    {
        var done = Assert.IsType<SealOutcome.Done>(_station.Seal(withheld: Withholding.Apart));
        Assert.Equal([_station["vault/small"], _station["vault/small-withheld"]], done.Targets);
        Assert.True(_station.Audit().IsValid);
        Assert.True(_station.Audit("vault/small-withheld").IsValid);
        Assert.DoesNotContain(Hidden, _station.Files());
        Assert.Equal([Hidden], _station.Files("vault/small-withheld").Where(file => file.StartsWith("data/", StringComparison.Ordinal)));
        Assert.Equal(File.ReadAllBytes(_station["content/photos/b.jpg"]), File.ReadAllBytes(_station["vault/small-withheld/" + Hidden]));
    }
}
