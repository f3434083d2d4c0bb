using Archive.Diagnostics.Collecting;
using Archive.Records.Model;
using Archive.Records.Permanence;
using Archive.Records.Reading;
using Archive.Records.Tests.Reading;
using CsCheck;
using Xunit;

namespace Archive.Records.Tests.Permanence;

/// <summary>An address that was published once leads somewhere for ever.</summary>
public class AddressLedgerTests
{
    private const string Ledger = "# remark\nframes/R1/\nframes/R2/\n\nkinds/coax/\n";

    [Theory]
    [InlineData("- {id: R1, name: one}\n- {id: R2, name: two}\n", "")]
    [InlineData("- {id: R1, name: one}\n- {id: R9, name: two, was: [R2]}\n", "")]
    [InlineData("- {id: R1, name: one}\n- {id: R2, name: two, withdrawn: never was}\n", "")]
    [InlineData("- {id: R1, name: one}\n", "addresses.txt:3:1 AF1301 `frames/R2/` was published, but no record has it any more")]
    [InlineData(
        "- {id: R1, name: one}\n- {id: r2, name: two}\n",
        "addresses.txt:3:1 AF1301 `frames/R2/` was published, but no record has it any more")]
    [InlineData(
        "- {id: coax, name: one}\n- {id: R1, name: x, was: [R2]}\n",
        "addresses.txt:5:1 AF1301 `kinds/coax/` was published, but coax is now a frame, at another address",
        true)]
    [InlineData("- {id: R1, name: one, nmae: x}\n", "")] // what cannot be read is not said to vanish
    public void What_would_vanish_is_told(string frames, string told, bool withoutKind = false) =>
        Assert.Equal(told, Told(Ledger, frames, withoutKind));

    [Theory]
    [InlineData("frames/R1")]
    [InlineData("frames//")]
    [InlineData("frame/R1/")]
    [InlineData("frames/R1/x/")]
    [InlineData("frames/../")]
    [InlineData("<script>")]
    public void What_is_no_address_is_told(string line) =>
        Assert.Equal(
            $"addresses.txt:1:1 AF1302 `{line}` is not the address of a record",
            Told(line + "\r\nframes/R1/\r\n", "- {id: R1, name: one}\n", withoutKind: true));

    // Each of them compared with each new id would be two thousand million comparisons of names.
    [Fact]
    public void Very_many_addresses_that_would_vanish()
    {
        var lines = string.Concat(Enumerable.Range(0, 50_000).Select(i => $"frames/OLD-{i:D5}/\n"));
        var frames = string.Concat(Enumerable.Range(0, 40_000).Select(i => $"- {{id: NEW-{i:D5}, name: x}}\n"));
        var folder = Archives.Bare.With("frames/f.yaml", frames).With(AddressLedger.FileName, lines);
        var parsed = folder.Read();
        var told = AddressLedger.Read(folder).Check(parsed, ArchiveModel.From(parsed));
        Assert.Equal(DiagnosticList.MostPerFile + 1, told.Length);
        Assert.Contains("is `NEW-00000` the successor?", told[0].Help, StringComparison.Ordinal);
    }

    [Fact]
    public void A_ledger_only_grows()
    {
        var first = AddressLedger.Write(null, ["frames/R2/", "frames/R1/"]);
        Assert.EndsWith("\nframes/R1/\nframes/R2/\n", first, StringComparison.Ordinal);
        Assert.Equal(first + "cables/C/\n", AddressLedger.Write(first, ["cables/C/"]));
        Assert.Equal("frames/R1/\ncables/C/\n", AddressLedger.Write("frames/R1/", ["cables/C/"]));
    }

    // However records come, go, and change their names by the rules, what was published is still published.
    [Fact]
    public void By_the_rules_no_address_is_lost() => Gen.Int[0, 2].Array[1, 8].Sample(fates =>
    {
        var before = string.Concat(fates.Select((_, i) => $"- {{id: R{i}, name: x}}\n"));
        var after = string.Concat(fates.Select((fate, i) => fate switch
        {
            0 => $"- {{id: R{i}, name: x}}\n",
            1 => $"- {{id: N{i}, name: x, was: [R{i}]}}\n",
            _ => $"- {{id: R{i}, name: x, withdrawn: gone}}\n"
        }));
        var ledger = AddressLedger.Write(null, AddressLedger.Published(Record(before)));
        return Told(ledger, after, withoutKind: true).Length == 0;
    });

    private static ArchiveModel Record(string frames) =>
        ArchiveModel.From(RecordReader.Read(InMemoryFolder.Empty.With("archive.yaml", "title: x\n").With("frames/f.yaml", frames)));

    private static string Told(string ledger, string frames, bool withoutKind)
    {
        var folder = InMemoryFolder.Empty.With("archive.yaml", "title: x\n")
            .With("frames/f.yaml", frames)
            .With(AddressLedger.FileName, ledger);
        if (!withoutKind) folder = folder.With("kinds/k.yaml", "- {id: coax, name: x, family: coax}\n");
        var parsed = RecordReader.Read(folder);
        Assert.DoesNotContain(parsed.Diagnostics, diagnostic => diagnostic.Span.Path == AddressLedger.FileName);
        return string.Join("\n", AddressLedger.Read(folder)
            .Check(parsed, ArchiveModel.From(parsed))
            .Select(diagnostic => $"{diagnostic.Span} {diagnostic.Code} {diagnostic.Message}"));
    }
}
