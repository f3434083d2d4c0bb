using System.Collections.Immutable;
using System.Globalization;
using Archive.LabelRecognition.Grammars;

namespace Archive.LabelRecognition.Tests.Generated;

/// <summary>A way of writing labels, with the ports of an invented machine.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="Pattern">As in a label scheme.</param>
/// <param name="Confusions">As in a label scheme.</param>
/// <param name="Ends">The groups of each end.</param>
/// <param name="Write">Writes a label from the values of its ends.</param>
/// <param name="Ports">The values of the declared ports.</param>
internal sealed record LabelFamily(
    string Name,
    string Pattern,
    ImmutableArray<string> Confusions,
    ImmutableArray<ImmutableArray<string>> Ends,
    Func<string[][], string> Write,
    ImmutableArray<ImmutableArray<string>> Ports)
{
    internal static readonly LabelFamily Sleeve = new(
        "both ends on a sleeve",
        @"^(?<row1>\d\d)(?<frame1>\d\d)-(?<shelf1>\d\d)J(?<port1>\d\d) (?<row2>\d\d)(?<frame2>\d\d)-(?<shelf2>\d\d)J(?<port2>\d\d)$",
        ["O0", "I1l", "B8", "S5"],
        [["row1", "frame1", "shelf1", "port1"], ["row2", "frame2", "shelf2", "port2"]],
        ends => string.Join(' ', ends.Select(end => $"{end[0]}{end[1]}-{end[2]}J{end[3]}")),
        PortsOf(1, Numbers(1, 6), Numbers(1, 24), Numbers(1, 8), Numbers(1, 16)));

    internal static readonly LabelFamily Tag = new(
        "brass tag with terminals",
        @"^(?<row1>R\d|PW|OP)(?<frame1>\d\d)-(?<term1>TB|F|G)(?<port1>\d+)/"
            + @"(?<row2>R\d|PW|OP)(?<frame2>\d\d)-(?<term2>TB|F|G)(?<port2>\d+)$",
        ["O0", "B8", "G6"],
        [["row1", "frame1", "term1", "port1"], ["row2", "frame2", "term2", "port2"]],
        ends => string.Join('/', ends.Select(end => $"{end[0]}{end[1]}-{end[2]}{end[3]}")),
        PortsOf(2, ["R1", "R2", "R3", "PW", "OP"], Numbers(1, 16), ["TB", "F", "G"], [.. Enumerable.Range(1, 24).Select(Plain)]));

    internal static readonly LabelFamily Letters = new(
        "letters for rows and shelves",
        @"^(?<row>[A-HJ-N])(?<bay>\d\d)(?<shelf>[A-F])-(?<port>\d{1,2})$",
        ["B8", "D0"],
        [["row", "bay", "shelf", "port"]],
        ends => $"{ends[0][0]}{ends[0][1]}{ends[0][2]}-{ends[0][3]}",
        PortsOf(3, [.. "ABCDEFGHJKLMN".Select(letter => $"{letter}")], Numbers(1, 30), [.. "ABCDEF".Select(letter => $"{letter}")],
            [.. Enumerable.Range(1, 16).Select(Plain)]));

    internal static readonly LabelFamily Numbered = new(
        "number and address",
        @"^W(?<number>\d{4}) (?<row>\d)\.(?<bay>\d\d)\.(?<port>\d\d)$",
        ["O0", "I1"],
        [["number", "row", "bay", "port"]],
        ends => $"W{ends[0][0]} {ends[0][1]}.{ends[0][2]}.{ends[0][3]}",
        PortsOf(4, [.. Enumerable.Range(1000, 400).Select(Plain)], ["1", "2", "3", "4"], Numbers(1, 20), Numbers(1, 32)));

    internal static readonly LabelFamily[] All = [Sleeve, Tag, Letters, Numbered];

    /// <summary>Which ports are declared, for each end.</summary>
    internal GroupValues[] Inventory => [.. Ends.Select(groups => new GroupValues(groups, Ports))];

    internal string Label(Random random) =>
        Write([.. Ends.Select(_ => Ports[random.Next(Ports.Length)].ToArray())]);

    // A thousand and a half ports of all that could be written: a real machine has gaps too.
    private static ImmutableArray<ImmutableArray<string>> PortsOf(int seed, params string[][] values)
    {
        var random = new Random(seed);
        return [.. Enumerable.Range(0, 1500)
            .Select(_ => values.Select(list => list[random.Next(list.Length)]).ToImmutableArray())
            .DistinctBy(port => string.Join('/', port))];
    }

    private static string[] Numbers(int first, int last) =>
        [.. Enumerable.Range(first, last - first + 1).Select(number => number.ToString("00", CultureInfo.InvariantCulture))];

    private static string Plain(int number) => number.ToString(CultureInfo.InvariantCulture);
}
