using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Checks;
using Archive.Records.Model;
using Archive.Records.Terms;
using CsCheck;
using Xunit;

namespace Archive.Records.Tests.Checks;

/// <summary>What the port index and the overlap check find by sorting is what one finds by counting the ports one by one.</summary>
public class PortTests
{
    private static readonly Gen<string> Port = Gen.Select(OneOf("J", "K", "0A", "A", "J1-"), Gen.Int[0, 14], OneOf("", "0", "00"))
        .Select((prefix, number, zeros) => $"{prefix}{zeros}{number}");

    private static readonly Gen<string> Declared = Gen.OneOf(
        Port,
        OneOf("TB", "BAR"),
        Gen.Select(OneOf("J", "K", "A"), Gen.Int[0, 8], Gen.Int[0, 6])
            .Select((prefix, first, more) => $"{prefix}{first}..{prefix}{first + more}"));

    [Fact]
    public void A_place_exists_exactly_when_a_range_holds_its_port() =>
        Gen.Select(Declared.Array[1, 6], Port).Sample((declared, port) =>
        {
            var frame = FrameWith(declared);
            var record = ArchiveModel.From(new ParseResult(null, [frame], []));
            var found = new PlaceIndex(record).Find(Address.Create("F", "S1", port)).Lack == MissingAddressPart.None;
            return found == frame.Positions[0].Ports.Any(range => range.Contains(port));
        });

    [Fact]
    public void Ports_declared_twice_are_told_exactly_when_there_are_any() =>
        Declared.Array[0, 6].Sample(declared =>
        {
            var frame = FrameWith(declared);
            var parsed = new ParseResult(null, [frame], []);
            var told = RecordChecks.Check(parsed, ArchiveModel.From(parsed))
                .Any(diagnostic => diagnostic.Descriptor == DiagnosticDescriptors.DuplicatePort);
            var names = frame.Positions[0].Ports.SelectMany(range => range.Names).Select(LeadingZeros.Strip).ToList();
            return told == (names.Distinct().Count() < names.Count);
        });

    private static Gen<string> OneOf(params string[] texts) => Gen.Int[0, texts.Length - 1].Select(i => texts[i]);

    private static Frame FrameWith(string[] declared)
    {
        var source = new SourceText("frames/f.yaml", string.Join(' ', declared));
        var ports = ImmutableArray.CreateBuilder<PortRange>();
        var at = 0;
        foreach (var text in declared)
        {
            Assert.True(PortRange.TryParse(text, new SourceSpan(source, at, text.Length), out var range, out var why), why);
            ports.Add(range);
            at += text.Length + 1;
        }

        return new Frame
        {
            Id = "F",
            IdSpan = source.Whole,
            Span = source.Whole,
            Positions = [new Position { Id = TinyArchive.Written("S1"), Ports = ports.ToImmutable() }],
        };
    }
}
