using Archive.Search.Analysis;
using CsCheck;
using Xunit;

namespace Archive.Search.Tests;

/// <summary>The build's analysis against the published vocabulary, and the script's against the build's.</summary>
public sealed class AnalysisTests
{
    private static readonly string[] Patterns = ["r9", "9999-99", "9999", "c-9"];

    private static readonly Lazy<(string[] Words, string[] Stems)> Vocabulary = new(() => (
        File.ReadAllLines(Path.Combine(ScriptSide.Here, "snowball", "voc.txt")),
        File.ReadAllLines(Path.Combine(ScriptSide.Here, "snowball", "output.txt"))));

    // Source: snowballstem/snowball-data, English; answers of libstemmer 2.2.0, the algorithm that Lucene.Net 4.8 has
    // (snowball/SOURCE.txt).
    [Fact]
    public void Stems_are_those_of_the_published_vocabulary()
    {
        var (words, stems) = Vocabulary.Value;
        Assert.Equal(42_649, words.Length);
        var prose = new ProseWords(isEnglish: true);
        Assert.Equal(stems, words.Select(prose.Stem));
    }

    [Fact]
    public void The_script_stems_the_published_vocabulary_without_a_difference() =>
        Assert.Equal(Vocabulary.Value.Stems, ScriptSide.Ask<string[]>(new ScriptQuestion("stem", Vocabulary.Value.Words)));

    [Fact]
    public void The_script_knows_the_stop_words() =>
        Assert.Equal(ProseWords.Stops.Order(StringComparer.Ordinal), ScriptSide.Ask<string[]>(
            new ScriptQuestion("stops", [.. Vocabulary.Value.Words, .. ProseWords.Stops])).Distinct().Order(StringComparer.Ordinal));

    [Fact]
    public void Every_character_is_folded_alike()
    {
        string[] letters = [.. Enumerable.Range(1, 0xFFFF)
            .Where(code => code is < 0xD800 or > 0xDFFF && IsSettled((char)code))
            .Select(code => ((char)code).ToString())];
        var script = ScriptSide.Ask<string[]>(new ScriptQuestion("fold", letters));
        var differ = letters
            .Zip(script)
            .Where(pair => TextFolding.Fold(pair.First) != pair.Second)
            .Select(pair => $"U+{(int)pair.First[0]:X4} {TextFolding.Fold(pair.First)} {pair.Second}")
            .ToList();
        Assert.Empty(differ);
    }

    [Theory]
    [InlineData("Größe", "grosse")]
    [InlineData("Kämpfer", "kampfer")]
    [InlineData("ĐURO", "duro")]
    [InlineData("ﬁeld", "field")]
    [InlineData("e\u0301te\u0301", "ete")]
    [InlineData("operator’s", "operator's")]
    public void Accents_are_folded(string word, string folded) => Assert.Equal(folded, TextFolding.Fold(word));

    [Theory]
    [InlineData("R2-05/S7/J14", "r2-5s7j14 5s7j14 s7j14 j14")]
    [InlineData("0205-07J14", "205-7j14 7j14 j14")]
    [InlineData("C-0417", "c417 417")]
    [InlineData("PW-04", "pw4 4")]
    [InlineData("2026-05-12", "2026-5-12 5-12 12")]
    [InlineData("000", "0")]
    public void A_code_is_found_whole_and_from_each_part_on(string code, string keys) =>
        Assert.Equal(keys, string.Join(' ', CodeKeys.All(TextFolding.Fold(code))));

    [Theory]
    [InlineData("0205-O7J14", "0205-07J14")]
    [InlineData("O2O5-07Jl4", "0205-07J14")]
    [InlineData("R2-O5/57/J14", "R2-05/S7/J14")]
    [InlineData("R2-S5/S7", "R2-55/S7")]
    [InlineData("C-O4I7", "C-0417")]
    [InlineData("PW-8B", "PW-B8")]
    public void What_is_misread_looks_the_same(string typed, string written) =>
        Assert.Contains(Misreadings.Look(CodeKeys.Typed(TextFolding.Fold(written))), CodeKeys.Looks(TextFolding.Fold(typed)));

    [Fact]
    public void Punctuation_between_digits_is_learned()
    {
        var patterns = new CodePatterns();
        foreach (var code in new[] { "0205-07j14", "r2-05/s7/j14", "c-0417" }) patterns.Learn(code);
        string[] kept = [.. patterns.Kept()];
        Assert.Equal(["9999", "r9"], kept);
        Assert.Equal("205-7j14", CodeKeys.Typed(CodePatterns.Readings("020507j14", kept).First()));
        Assert.Equal("r2-5s7j14", CodeKeys.Typed(CodePatterns.Readings("r205s7j14", kept).First()));
    }

    [Fact]
    public void Any_text_is_taken_apart_alike()
    {
        var texts = new List<string>();
        Gen.Char["abosil019 -/.'’JößΣςİ\u00a0\u0085٣字\u0301☃"].Array[1, 14]
            .Select(letters => new string(letters).Replace("☃", "😀", StringComparison.Ordinal)).Array[3000]
            .Sample(some => texts.AddRange(some), iter: 1, seed: "0N0XIzNsQ0O2");
        var script = ScriptSide.Ask<string[][]>(new ScriptQuestion("analyse", texts) { Patterns = Patterns });
        for (var i = 0; i < texts.Count; i++) Assert.Equal(Analysed(texts[i]), script[i]);
    }

    [Fact]
    public void One_slip_is_near_two_are_not()
    {
        var words = new List<string>();
        Gen.Char["abc"].Array[0, 6]
            .Select(letters => new string(letters)).Array[4000]
            .Sample(some => words.AddRange(some), iter: 1, seed: "0N0XIzNsQ0O2");
        string[] pairs = [.. words.Chunk(2).Select(pair => $"{pair[0]} {pair[1]}")];
        var script = ScriptSide.Ask<bool[]>(new ScriptQuestion("near", pairs));
        for (var i = 0; i < pairs.Length; i++)
        {
            var pair = pairs[i].Split(' ');
            var near = Distance(pair[0], pair[1]) <= 1;
            Assert.Equal(near, Misspelling.IsNear(pair[0], pair[1]));
            Assert.Equal(near, script[i]);
        }
    }

    private static string[] Analysed(string text) => [.. TextFolding.Chunks(text).Select(chunk =>
    {
        if (!CodeKeys.IsCode(chunk)) return string.Join(' ', ProseWords.In(chunk));
        var key = CodeKeys.Typed(chunk);
        return string.Join(' ', [key, CodeKeys.AsPrefix(key), .. CodeKeys.Looks(chunk), .. CodePatterns.Readings(chunk, Patterns)]);
    })];

    // Optimal string alignment, by the book (Damerau's four edits, no piece edited twice).
    private static int Distance(string a, string b)
    {
        var d = new int[a.Length + 1, b.Length + 1];
        for (var i = 0; i <= a.Length; i++) d[i, 0] = i;
        for (var j = 0; j <= b.Length; j++) d[0, j] = j;
        for (var i = 1; i <= a.Length; i++)
        {
            for (var j = 1; j <= b.Length; j++)
            {
                d[i, j] = Math.Min(Math.Min(d[i - 1, j] + 1, d[i, j - 1] + 1), d[i - 1, j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1));
                if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) d[i, j] = Math.Min(d[i, j], d[i - 2, j - 2] + 1);
            }
        }

        return d[a.Length, b.Length];
    }

    // Letters that were given capitals or small letters lately are distinguished by newer Unicode tables only.
    private static bool IsSettled(char letter) =>
        char.GetUnicodeCategory(letter) is not System.Globalization.UnicodeCategory.OtherNotAssigned && letter is < '\uA7C0' or > '\uA7DF';
}
