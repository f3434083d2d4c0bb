using System.IO.Compression;
using Archive.Preservation.Audits;
using Archive.Preservation.Sealing;
using Xunit;

namespace Archive.Preservation.Tests;

/// <summary>What is sealed with <c>--zip</c> is the same to every unpacker, or is not sealed.</summary>
public sealed class SealedZipTests : IDisposable
{
    private readonly SealedStation _station = new();

    public void Dispose() => _station.Dispose();

    [Theory]
    [InlineData("photos/a:b.raw")]
    [InlineData("photos/what?.raw")]
    [InlineData("photos/aux.raw")]
    [InlineData("photos/blank ")]
    [InlineData("photos/old;1")]
    public void A_file_that_would_be_unpacked_under_another_name_is_not_packed(string name)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Windows has no such names");
        _station.Write("content/" + name, "x");
        var diagnostic = Assert.Single(Assert.IsType<SealResult.Withheld>(_station.Seal(zip: true)).Faults);
        Assert.Equal("AF1234", diagnostic.Code);
        Assert.IsType<SealResult.Done>(_station.Seal());
        Assert.True(_station.Audit().IsValid);
    }

    [Fact]
    public void A_bag_whose_own_name_would_change_is_not_packed()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Windows has no such names");
        Assert.Equal("AF1235", Assert.IsType<SealResult.Refused>(_station.Seal("vault/con", zip: true)).Why.Code);
        Assert.Equal("AF1235", Assert.IsType<SealResult.Refused>(_station.Seal("vault/10:30", zip: true)).Why.Code);
    }

    // Names in other scripts are marked as UTF-8.
    [Fact]
    public void Letters_of_other_scripts_are_packed()
    {
        _station.Write("content/photos/Übersicht Ñandú 受信機.raw", "x");
        Assert.IsType<SealResult.Done>(_station.Seal(zip: true));
        var audit = Audit.OfPacked(_station["vault/small.zip"], null, TestContext.Current.CancellationToken);
        Assert.True(audit.IsValid, string.Join("; ", audit.Diagnostics));
        using var zip = ZipFile.OpenRead(_station["vault/small.zip"]);
        Assert.Contains(zip.Entries, entry => entry.Name == "Übersicht Ñandú 受信機.raw");
    }
}
