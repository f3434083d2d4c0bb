using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Wiring.Labels;
using Xunit;

namespace Archive.Wiring.Tests;

/// <summary>A small record written out, as a curator would.</summary>
/// <remarks>Immutable: property tests share one between threads.</remarks>
internal sealed class Written
{
    private readonly InMemoryFolder _folder;

    public Written()
        : this(InMemoryFolder.Empty.With("archive.yaml", "title: Trial\n"))
    {
    }

    private Written(InMemoryFolder folder) => _folder = folder;

    /// <summary>
    /// Two receiver frames with declared ports, a control frame with undeclared ones, a bare frame, and a frame that was renamed.
    /// </summary>
    public const string Frames = """
        - id: R1-03
          name: one
          module: receivers
          positions: [{id: S2, ports: [J1..J24]}, {id: S3, ports: [J1..J24]}]
        - id: R2-05
          name: two
          module: receivers
          positions: [{id: S7, ports: [J1..J24, TB1]}]
        - {id: OP-01, name: desk, module: control, positions: [{id: S1}]}
        - {id: PW-03, name: plant}
        - {id: R3-01, name: moved, was: [R9-01]}
        - {id: R4-01, name: gone, withdrawn: never stood here}
        """;

    public const string JacketPrint = """
        id: jacket
        name: Jacket print
        reads: '^(?<row1>\d\d)(?<frame1>\d\d)-(?<shelf1>\d\d)J(?<port1>\d+) (?<row2>\d\d)(?<frame2>\d\d)-(?<shelf2>\d\d)J(?<port2>\d+)$'
        means: ['{row1}-{frame1}/S{shelf1}/J{port1}', '{row2}-{frame2}/S{shelf2}/J{port2}']
        tables: {row: {"01": R1, "02": R2, "03": R3, "04": R4, "07": OP, "09": R9}}
        confusions: [O0, I1l, B8, S5]
        examples: {"0205-07J14 0103-02J03": [R2-05/S7/J14, R1-03/S2/J3]}
        """;

    /// <summary>Tags that name their own end, and may name the far one.</summary>
    public const string Tag = """
        id: tag
        name: Tags at the ends
        on: end
        reads: '^(?<row1>\w\w)(?<frame1>\d\d) (?<port1>S\d+J\d+)( > (?<row2>\w\w)(?<frame2>\d\d) (?<port2>S\d+J\d+))?$'
        means: ['{row1}-{frame1}/{port1}', '{row2}-{frame2}/{port2}']
        tables: {port: {S2J3: S2/J3, S2J4: S2/J4, S7J14: S7/J14, S7J15: S7/J15, S9J1: S9/J1}}
        """;

    public static Written Record =>
        new Written().With("frames/all.yaml", Frames).With("kinds/all.yaml", "- {id: coax, name: coax, family: coax}\n");

    public Written With(string path, string text) => new(_folder.With(path, text));

    public Written Cables(params string[] cables) => With("cables/all.yaml", string.Concat(cables.Select(cable => $"- {{{cable}}}\n")));

    public ArchiveModel Read()
    {
        var parsed = RecordReader.Read(_folder);
        Assert.Empty(parsed.Diagnostics);
        return ArchiveModel.From(parsed.Statement!, parsed.Records);
    }

    public ImmutableArray<Diagnostic> SchemeFaults() => SchemeChecks.Check(JudgedPrint.From(Read()));

    public LabelReadings Labels() => LabelReadings.From(Read());
}
