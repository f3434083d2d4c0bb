using System.Collections.Immutable;
using System.Text.RegularExpressions;
using Archive.LabelRecognition.Grammars;
using CsCheck;
using Xunit;

namespace Archive.LabelRecognition.Tests.Grammars;

public class LabelGrammarTests
{
    private const string Sleeve =
        @"^(?<row1>\d\d)(?<frame1>\d\d)-(?<shelf1>\d\d)J(?<port1>\d\d) (?<row2>\d\d)(?<frame2>\d\d)-(?<shelf2>\d\d)J(?<port2>\d\d)$";

    // Patterns of what the parser takes, over few letters, so that random labels often fit.
    private static readonly Gen<string> Pattern = Gen.Recursive<string>((depth, inner) => depth > 3
        ? TextGen.Pick("a", "b", "c", "[ab]", "[^a]", @"\d", ".", "1", @"\-", "[b-c-[c]]", @"\x61")
        : Gen.OneOf(
            TextGen.Pick("a", "b", "[ab]", @"\d", "1"),
            Gen.Select(inner, inner, (x, y) => x + y),
            Gen.Select(inner, inner, (x, y) => $"(?:{x}|{y})"),
            Gen.Select(inner, TextGen.Pick("*", "+", "?", "{2}", "{1,3}", "{2,}", "+?", "{0,2}?"), (x, count) => $"(?:{x}){count}"),
            inner.Select(x => $"(?<g>{x})"),
            inner.Select(x => $"({x})")));

    private static readonly Gen<string> Anchored = Gen.Select(
        TextGen.Pick("^", "", @"\A"), Pattern, TextGen.Pick("$", "", @"\z", "$|^b"), (start, middle, end) => start + middle + end);

    [Fact]
    public void An_automaton_takes_the_labels_that_the_library_matches() =>
        Gen.Select(Anchored, TextGen.Of("abc1-", 0, 7).Array[20]).Sample((pattern, labels) =>
        {
            // Backtracking overflows its stack on lazy counts of counts, such as (?:(?:(?:a)*)+?){1,3}.
            var expected = new Regex(pattern, RegexOptions.ExplicitCapture | RegexOptions.CultureInvariant | RegexOptions.NonBacktracking);
            var automaton = Compiled(pattern);
            Assert.All(labels, label => Assert.Equal((label, expected.IsMatch(label)), (label, automaton.Accepts(label))));
        }, iter: 300);

    [Fact]
    public void Lists_leave_the_labels_whose_groups_have_listed_values() =>
        Gen.Select(
            TextGen.Of("01", 1, 2).Array[0, 5], Gen.Select(TextGen.Of("01", 1, 2), TextGen.Of("ab", 0, 2)).Array[0, 6],
            Gen.Select(TextGen.Of("01", 1, 2), TextGen.Of("01", 1, 2), TextGen.Of("ab", 0, 2)).Array[30])
        .Sample((rows, ends, labels) =>
        {
            var pattern = new Regex("^(?<row>[01]+)-(?<port>[01]+)(?<side>[ab]*)$", RegexOptions.ExplicitCapture);
            var result = LabelGrammar.Compile(
                pattern.ToString(),
                GroupValues.For("row", rows),
                new GroupValues(["port", "side"], [.. ends.Select(end => ImmutableArray.Create(end.Item1, end.Item2))]));
            foreach (var (row, port, side) in labels)
            {
                var isListed = rows.Contains(row) && ends.Contains((port, side));
                Assert.Equal(isListed, result.Automaton?.Accepts($"{row}-{port}{side}") ?? false);
            }

            Assert.Equal(rows.Length == 0 || ends.Length == 0, result.Automaton is null);
        }, iter: 300);

    [Fact]
    public void A_group_that_takes_no_part_is_not_narrowed()
    {
        var automaton = Compiled(@"^(?<near>\d)(?:/(?<far>\d))?$", GroupValues.For("near", "1", "2"), GroupValues.For("far", "3"));
        Assert.Equal(["1", "2", "1/3", "2/3"], new[] { "1", "2", "3", "1/3", "2/3", "1/1", "3/3" }.Where(automaton.Accepts));
    }

    [Fact]
    public void Declared_ports_narrow_both_ends_without_multiplying()
    {
        // Each row, frame and shelf has other ports, so that little is shared.
        var random = new Random(1);
        var ports = Enumerable.Range(0, 2000).Select(_ => random.Next(100_000_000).ToString("D8"))
            .Select(text => new[] { text[..2], text[2..4], text[4..6], text[6..] }).ToList();
        var one = Compiled(Sleeve, Ports(1));
        var both = Compiled(Sleeve, Ports(1), Ports(2));
        Assert.InRange(both.StateCount, one.StateCount, 2 * one.StateCount);
        Assert.True(both.Accepts(Label(ports[0], ports[1999])));
        var undeclared = ports[0][..3].Append("00").ToArray();
        Assert.Equal(ports.Exists(port => port.SequenceEqual(undeclared)), both.Accepts(Label(undeclared, ports[1])));

        GroupValues Ports(int end) => new(
            [$"row{end}", $"frame{end}", $"shelf{end}", $"port{end}"],
            [.. ports.Select(port => ImmutableArray.Create(port))]);

        static string Label(string[] a, string[] b) => $"{a[0]}{a[1]}-{a[2]}J{a[3]} {b[0]}{b[1]}-{b[2]}J{b[3]}";
    }

    [Fact]
    public void The_automaton_is_the_smallest() =>
        // Two digits of two sorts, whichever way they are written: start, one digit, end.
        Assert.Equal(3, Compiled("^(?:[0-4][0-9]|[5-9]\\d|0(?:1|2))$").StateCount);

    [Theory]
    [InlineData(@"(?i)abc", "this kind of group is not supported")]
    [InlineData(@"^(?=a)b$", "this kind of group is not supported")]
    [InlineData(@"(?<=a)b", "looking behind and balancing groups are not supported")]
    [InlineData(@"(?<g>a)\k<g>", @"`\k` is not supported")]
    [InlineData(@"a\b", @"`\b` is not supported")]
    [InlineData("a(^b)", "a start of the label within the pattern is not supported")]
    [InlineData("(a$)b", "an end of the label within the pattern is not supported")]
    [InlineData("a(", "it is not a regular expression")]
    [InlineData("(?:a{900}){900}", "it describes more than 2000 characters, with counts written out")]
    [InlineData("[^ -~]", "no label fits it")]
    [InlineData("a\U0001F600", "it names too many different characters")]
    public void What_cannot_be_compiled_says_why(string pattern, string message)
    {
        var result = LabelGrammar.Compile(pattern);
        Assert.Null(result.Automaton);
        Assert.Equal(message, result.Problem!.Message);
        Assert.InRange(result.Problem.At, 0, pattern.Length);
    }

    [Fact]
    public void An_automaton_that_would_grow_too_large_is_not_made()
    {
        // Which of the last ten letters are an a must be kept in mind: 2^10 states.
        Assert.Equal("it has more than 1000 states", LabelGrammar.Compile("^[ab]*a[ab]{9}$", 1000, []).Problem!.Message);
        Assert.Equal(1024, LabelGrammar.Compile("^[ab]*a[ab]{9}$", 1100, []).Automaton!.StateCount);
    }

    [Theory]
    [InlineData("^(?<a>x)$", "b", "no group of the pattern is named `b`")]
    [InlineData("^(?:(?<a>x),)+$", "a", "group `a` is repeated, so its values cannot be narrowed")]
    public void What_cannot_be_narrowed_says_why(string pattern, string group, string message) =>
        Assert.Equal(message, LabelGrammar.Compile(pattern, GroupValues.For(group, "x")).Problem!.Message);

    // A hostile pattern ends, whatever it is.
    [Fact]
    public void Any_text_compiles_or_says_why() =>
        TextGen.Of("ab(){}[]?*+|^$\\<>'=!:-,0123dwxpk.é", 0, 30).Sample(text =>
        {
            var result = LabelGrammar.Compile(text);
            Assert.True(result.Automaton is null != result.Problem is null);
        }, iter: 3000);

    internal static LabelAutomaton Compiled(string pattern, params GroupValues[] lists)
    {
        var result = LabelGrammar.Compile(pattern, lists);
        Assert.True(result.Problem is null, result.Problem?.Message);
        return result.Automaton!;
    }
}
