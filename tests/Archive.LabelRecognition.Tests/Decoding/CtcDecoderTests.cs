using Archive.LabelRecognition.Decoding;
using Archive.LabelRecognition.Tests.Grammars;
using CsCheck;
using Xunit;

namespace Archive.LabelRecognition.Tests.Decoding;

public class CtcDecoderTests
{
    private static readonly string[] Classes = ["", "a", "b", "c"];

    // Rows of a blank and three characters.
    private static readonly Gen<CtcFrames> Frames = Gen.Double[0.001, 1].Array[4].Array[1, 5].Select(rows =>
        new CtcFrames([.. rows.SelectMany(row => row.Select(number => (float)(number * number / row.Sum(other => other * other))))], 4));

    private static readonly Gen<string> Pattern = TextGen.Pick(
        "^[abc]*$", "^[ab]{2}c?$", "^(?:ab|ba|aab|bba)$", "^a*b*c*$", "^(?:aa)+$", "^(?:a[bc]|[bc]a)*$", "^c$");

    /// <summary>
    /// Graves, Supervised sequence labelling with recurrent neural networks, 7.4 (figure 2 in Graves and others, 2006): the best path says
    /// nothing (0.42), yet "A" is more likely (0.58). The numbers are from memory.
    /// </summary>
    [Fact]
    public void The_likeliest_label_is_not_that_of_the_likeliest_path()
    {
        var frames = new CtcFrames([0.7f, 0.3f, 0.6f, 0.4f], 2);
        var decoder = Decoder("^A?$", ["", "A"]);
        Assert.Equal("", decoder.DecodePath(frames)!.Label);
        Assert.Equal(0.42, Math.Exp(decoder.DecodePath(frames)!.LogLikelihood), 6);
        var readings = decoder.Decode(frames, 2).Best;
        Assert.Equal(["A", ""], readings.Select(reading => reading.Label));
        Assert.Equal(0.58, Math.Exp(readings[0].LogLikelihood), 6);
        Assert.Equal(0.42, Math.Exp(readings[1].LogLikelihood), 6);
    }

    /// <summary>The worked examples in TensorFlow's test of its CTC loss (ctc_loss_op_test.py, testBasic), the blank put first.</summary>
    [Theory]
    [InlineData("abcba", 3.34211, new[]
    {
        0.0260553f, 0.633766f, 0.221185f, 0.0917319f, 0.0129757f, 0.0142857f,
        0.010436f, 0.111121f, 0.588392f, 0.278779f, 0.0055756f, 0.00569609f,
        0.0037688f, 0.0357786f, 0.633813f, 0.321418f, 0.00249248f, 0.00272882f,
        0.00331533f, 0.0663296f, 0.643849f, 0.280111f, 0.00283995f, 0.0035545f,
        0.00623107f, 0.458235f, 0.396634f, 0.123377f, 0.00648837f, 0.00903441f,
    })]
    [InlineData("abba", 5.42262, new[]
    {
        0.161508f, 0.30176f, 0.28562f, 0.0831517f, 0.0862751f, 0.0816851f,
        0.19549f, 0.24082f, 0.397533f, 0.0557226f, 0.0546814f, 0.0557528f,
        0.202456f, 0.230246f, 0.450868f, 0.0389607f, 0.038309f, 0.0391602f,
        0.190345f, 0.280884f, 0.429522f, 0.0326593f, 0.0339046f, 0.0326856f,
        0.154046f, 0.423286f, 0.315517f, 0.0338439f, 0.0393744f, 0.0339315f,
    })]
    public void The_likelihood_of_a_label_is_the_loss_that_another_library_computes(string label, double loss, float[] probabilities)
    {
        var decoder = Decoder($"^{label}$", ["", "a", "b", "c", "d", "e"]);
        var frames = new CtcFrames(probabilities, 6);
        Assert.Equal(-loss, decoder.LogLikelihood(frames), 4);
        Assert.Equal(-loss, decoder.Decode(frames, 1).Best.Single().LogLikelihood, 4);
        Assert.Equal(1, decoder.Decode(frames, 1).Best.Single().Probability, 9);
    }

    [Fact]
    public void Readings_are_those_of_all_sequences_of_classes_added_up() =>
        Gen.Select(Frames, Pattern).Sample((frames, pattern) =>
        {
            var expected = Enumerate(frames, pattern);
            var decoded = Decoder(pattern, Classes).Decode(frames, 1000);
            Assert.True(decoded.IsExact);
            Assert.Equal(expected.Count, decoded.Best.Length);
            var total = expected.Values.Sum();
            foreach (var reading in decoded.Best)
            {
                Assert.Equal(1, Math.Exp(reading.LogLikelihood) / expected[reading.Label], 6);
                Assert.Equal(expected[reading.Label] / total, reading.Probability, 6);
            }

            Assert.Equal(decoded.Best.OrderByDescending(reading => reading.Probability), decoded.Best);
            if (expected.Count > 0) Assert.Equal(Math.Log(total), decoded.LogLikelihood, 6);
        }, iter: 300);

    [Fact]
    public void A_few_readings_are_the_first_of_all() =>
        Gen.Select(Frames, Pattern, Gen.Int[1, 5]).Sample((frames, pattern, most) =>
        {
            var decoder = Decoder(pattern, Classes);
            Assert.Equal(decoder.Decode(frames, 1000).Best.Take(most), decoder.Decode(frames, most).Best);
        }, iter: 100);

    [Fact]
    public void The_best_path_is_the_best_of_all_sequences_of_classes() =>
        Gen.Select(Frames, Pattern).Sample((frames, pattern) =>
        {
            var automaton = LabelGrammarTests.Compiled(pattern);
            var sequences = Sequences(frames).Where(sequence => automaton.Accepts(sequence.Label)).ToList();
            var path = Decoder(pattern, Classes).DecodePath(frames);
            Assert.Equal(sequences.Count == 0, path is null);
            if (path is null) return;
            Assert.Equal(1, Math.Exp(path.LogLikelihood) / sequences.Max(sequence => sequence.Probability), 6);
            Assert.Contains(sequences, sequence => sequence.Label == path.Label);
            Assert.Equal(path.Label.Length, path.Frames.Length);
            Assert.Equal(path.Frames.Distinct().Order(), path.Frames);
        }, iter: 300);

    [Fact]
    public void Where_every_label_fits_the_path_is_what_the_recogniser_reads_by_itself() =>
        Frames.Sample(frames =>
        {
            var path = Decoder("^[abc]*$", Classes).DecodePath(frames)!;
            var rows = Enumerable.Range(0, frames.Count).Select(frame => frames[frame].ToArray()).ToList();
            Assert.Equal(rows.Sum(row => Math.Log(row.Max())), path.LogLikelihood, 6);
            // Of two classes that are as likely either may be read.
            if (rows.TrueForAll(row => row.Count(number => number > row.Max() * 0.99999f) == 1))
                Assert.Equal(frames.ReadUnconstrained(Classes), path.Label);
        }, iter: 300);

    [Fact]
    public void Confusions_weigh_and_do_not_decide()
    {
        string[] classes = ["", "O", "0"];
        var decoder = new CtcDecoder(
            LabelGrammarTests.Compiled("^[O0]$"), GlyphWeights.From(LabelGrammarTests.Compiled("^[O0]$").Glyphs, classes, "O0"));
        var readings = decoder.Decode(new CtcFrames([0.1f, 0.9f, 0f], 3), 2).Best;
        Assert.Equal(["O", "0"], readings.Select(reading => reading.Label));
        Assert.Equal(GlyphWeights.Confused, readings[1].Probability / readings[0].Probability, 6);
    }

    [Fact]
    public void A_space_may_be_read_as_nothing()
    {
        string[] classes = ["", "1", "2", " "];
        var frames = new CtcFrames([0.02f, 0.96f, 0.01f, 0.01f, 0.97f, 0.01f, 0.01f, 0.01f, 0.02f, 0.01f, 0.96f, 0.01f], 4);
        var automaton = LabelGrammarTests.Compiled(@"^\d \d$");
        Assert.Equal("1 2", new CtcDecoder(automaton, GlyphWeights.From(automaton.Glyphs, classes)).Decode(frames, 1).Best.Single().Label);
    }

    [Fact]
    public void A_line_too_short_for_any_label_has_no_reading()
    {
        var decoded = Decoder("^aaa$", Classes).Decode(new CtcFrames([0.1f, 0.7f, 0.1f, 0.1f, 0.1f, 0.7f, 0.1f, 0.1f], 4), 3);
        Assert.Empty(decoded.Best);
        Assert.Null(Decoder("^aaa$", Classes).DecodePath(new CtcFrames([], 4)));
    }

    [Fact]
    public void Temperature_keeps_the_order_of_classes_and_sums_to_one()
    {
        var warm = new CtcFrames([0.9f, 0.09f, 0.01f], 3).At(2);
        Assert.Equal(1, warm[0].ToArray().Sum(), 5);
        // The square root of 0.9, 0.09 and 0.01 over their sum.
        Assert.Equal(0.9487 / (0.9487 + 0.3 + 0.1), warm[0][0], 3);
        Assert.Equal(0.3 / (0.9487 + 0.3 + 0.1), warm[0][1], 3);
    }

    private static CtcDecoder Decoder(string pattern, string[] classes)
    {
        var automaton = LabelGrammarTests.Compiled(pattern);
        return new CtcDecoder(automaton, GlyphWeights.From(automaton.Glyphs, classes));
    }

    private static Dictionary<string, double> Enumerate(CtcFrames frames, string pattern)
    {
        var automaton = LabelGrammarTests.Compiled(pattern);
        return Sequences(frames).Where(sequence => automaton.Accepts(sequence.Label))
            .GroupBy(sequence => sequence.Label)
            .ToDictionary(same => same.Key, same => same.Sum(sequence => sequence.Probability));
    }

    private static IEnumerable<(string Label, double Probability)> Sequences(CtcFrames frames)
    {
        IEnumerable<(string Label, int Last, double Probability)> all = [("", 0, 1.0)];
        for (var frame = 0; frame < frames.Count; frame++)
        {
            var at = frame;
            all = [.. all.SelectMany(before => Enumerable.Range(0, frames.ClassCount).Select(next => (
                next == before.Last || next == 0 ? before.Label : before.Label + Classes[next],
                next,
                before.Probability * frames[at][next])))];
        }

        return all.Select(sequence => (sequence.Label, sequence.Probability));
    }
}
