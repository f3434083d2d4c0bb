using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using Archive.LabelRecognition.Assignment;
using Archive.LabelRecognition.Calibration;
using Archive.LabelRecognition.Decoding;
using Archive.LabelRecognition.Grammars;
using Archive.LabelRecognition.Models;
using Archive.LabelRecognition.Readings;
using Archive.LabelRecognition.Tests.Grammars;

namespace Archive.LabelRecognition.Tests.Generated;

/// <summary>What one label was read as.</summary>
internal sealed record Measured(LabelPicture Drawn, Wear Wear, string Unconstrained, RecognizedLine ByForm, RecognizedLine ByInventory)
{
    internal bool IsReadUnconstrained => Unconstrained.Replace(" ", "") == Drawn.Label.Replace(" ", "");

    internal bool IsTakenForLabel =>
        !ByInventory.Best.IsEmpty && LabelLikeness.IsLabel(ByInventory.Fit, Unconstrained, ByInventory.Best[0].Label);

    internal Claim Form => ClaimOf(ByForm);

    internal Claim Inventory => ClaimOf(ByInventory);

    /// <summary>The sleeve at the other end, read by inventory; null where it was not photographed.</summary>
    internal RecognizedLine? OtherEnd { get; init; }

    /// <summary>What photos of both ends say together.</summary>
    internal ImmutableArray<EndReading> BothEnds => JointReading.Join(
        [.. new[] { ByInventory, OtherEnd }.OfType<RecognizedLine>().Select(line => line.Best
            .Select(reading => new EndReading(reading.Label, reading.Label, reading.Probability)).ToImmutableArray())]);

    internal Claim Both => ClaimOf(BothEnds.FirstOrDefault());

    private Claim ClaimOf(RecognizedLine line) =>
        line.Best.IsEmpty ? new Claim(0, false) : new Claim(line.Best[0].Probability, line.Best[0].Label == Drawn.Label);

    internal Claim ClaimOf(EndReading? reading) =>
        reading is null ? new Claim(0, false) : new Claim(reading.Probability, reading.Label == Drawn.Label);
}

/// <summary>Draws labels and reads them.</summary>
internal sealed class Measurement(TextRecognizer recognizer)
{
    private const int MostReadings = 5;

    private readonly ImmutableDictionary<string, (CtcDecoder Form, CtcDecoder Inventory)> _decoders = LabelFamily.All.ToImmutableDictionary(
        family => family.Name,
        family => (Decoder(recognizer, family.Pattern, family, []), Decoder(recognizer, family.Pattern, family, family.Inventory)));

    /// <summary>Labels of each family in each typeface, in turn.</summary>
    internal static IEnumerable<LabelPicture> Draw(Typeface[] typefaces, Wear wear, int count, int seed) =>
        Enumerable.Range(0, count).Select(at => LabelPicture.Draw(
            LabelFamily.All[at % LabelFamily.All.Length], typefaces[at / LabelFamily.All.Length % typefaces.Length], wear, seed + at));

    /// <summary>Reads a label.</summary>
    internal Measured Measure(LabelPicture drawn, Wear wear, ReadingTemperatures temperatures)
    {
        // Each view is recognised once for both.
        var seen = new Dictionary<(LineView, double), CtcFrames?>();
        var (form, inventory) = _decoders[drawn.Family.Name];
        var byForm = Read(form);
        return new Measured(drawn, wear, byForm.Unconstrained, byForm, Read(inventory));

        RecognizedLine Read(CtcDecoder decoder) =>
            new LabelReader(recognizer, [new ReadableScheme(drawn.Family.Name, decoder)], temperatures).Read(Look, MostReadings)!;

        CtcFrames? Look(LineView view, double smoothing)
        {
            if (seen.TryGetValue((view, smoothing), out var frames)) return frames;
            var box = view.IsTurned ? drawn.Box.Turned() : drawn.Box;
            return seen[(view, smoothing)] = recognizer.Recognize(drawn.Image, box, view.IsInverted, smoothing);
        }
    }

    /// <summary>Reads the sleeve at the other end of a cable too.</summary>
    internal Measured WithOtherEnd(Measured one, ReadingTemperatures temperatures)
    {
        var (family, other) = (one.Drawn.Family, LabelPicture.Draw(one.Drawn.Family, one.Drawn.Typeface, one.Wear, one.Drawn.Seed, 1));
        var reader = new LabelReader(recognizer, [new ReadableScheme(family.Name, _decoders[family.Name].Inventory)], temperatures);
        return one with { OtherEnd = reader.Read(other.Image, other.Box, MostReadings) };
    }

    /// <summary>Fits the temperatures on labels of all wears: of all for one look, of those that are looked at again for several.</summary>
    internal ReadingTemperatures Fit(int count, int seed)
    {
        var lines = Wear.All.SelectMany(wear => Draw(Typeface.Fitted, wear, count, seed)).AsParallel().AsOrdered().Select(drawn => (
                Drawn: drawn,
                Looks: ((double[])[0, .. LabelReader.MoreSmoothing]).Select(smoothing =>
                    recognizer.Recognize(drawn.Image, drawn.Box, IsLightOnDark(drawn), smoothing)!).ToList()))
            .ToList();
        var oneLook = TemperatureFit.Fit([.. lines.Select(line => Known(line.Drawn, line.Looks[0]))]);
        var unsure = lines.Where(line => !_decoders[line.Drawn.Family.Name].Form.Decode(line.Looks[0].At(oneLook), 1).Best
            .Any(best => best.Probability >= LabelReader.Sure));
        return new ReadingTemperatures(
            oneLook, TemperatureFit.Fit([.. unsure.Select(line => Known(line.Drawn, CtcFrames.Mean(line.Looks)))]));

        bool IsLightOnDark(LabelPicture drawn) => FitOf(drawn, true) > FitOf(drawn, false);

        double FitOf(LabelPicture drawn, bool isInverted) =>
            _decoders[drawn.Family.Name].Form.LogLikelihood(recognizer.Recognize(drawn.Image, drawn.Box, isInverted)!);

        KnownLine Known(LabelPicture drawn, CtcFrames frames) => new(
            frames, _decoders[drawn.Family.Name].Form, Decoder(recognizer, $"^{Regex.Escape(drawn.Label)}$", drawn.Family, []));
    }

    /// <summary>The tables.</summary>
    internal static string Report(IReadOnlyCollection<Measured> all)
    {
        var text = new StringBuilder("| wear | printing | labels | unconstrained | by form | by inventory | taken for labels |\n");
        text.Append("| --- | --- | --- | --- | --- | --- | --- |\n");
        foreach (var wear in all.Select(one => one.Wear).Distinct())
        {
            foreach (var printing in Enum.GetValues<Printing>())
                Row(printing.ToString(), [.. all.Where(one => one.Wear == wear && one.Drawn.Typeface.Printing == printing)]);
            Row("all", [.. all.Where(one => one.Wear == wear)]);

            void Row(string name, List<Measured> some)
            {
                if (some.Count == 0) return;
                text.Append(CultureInfo.InvariantCulture, $"| {wear.Name} | {name} | {some.Count} | ");
                text.Append(CultureInfo.InvariantCulture, $"{Share(one => one.IsReadUnconstrained)} | ");
                text.Append(CultureInfo.InvariantCulture, $"{Share(one => one.Form.IsRight)} | {Share(one => one.Inventory.IsRight)} | ");
                text.Append(CultureInfo.InvariantCulture, $"{Share(one => one.IsTakenForLabel)} |\n");

                string Share(Func<Measured, bool> isRight) =>
                    (100.0 * some.Count(isRight) / some.Count).ToString("0.0", CultureInfo.InvariantCulture) + " %";
            }
        }

        text.Append("\n| wear | one end | both ends | both ends of all cables together |\n| --- | --- | --- | --- |\n");
        foreach (var wear in all.GroupBy(one => one.Wear))
        {
            text.Append(CultureInfo.InvariantCulture, $"| {wear.Key.Name} | {Right(wear.Select(one => one.Inventory))} | ");
            text.Append(CultureInfo.InvariantCulture, $"{Right(wear.Select(one => one.Both))} | {Right(Together([.. wear]))} |\n");
        }

        foreach (var some in all.GroupBy(one => one.Wear.More is null ? "" : one.Wear.Name + ", ").OrderBy(group => group.Key != ""))
        {
            text.Append(Reliability(some.Key + "by form", [.. some.Select(one => one.Form)]));
            text.Append(Reliability(some.Key + "by inventory", [.. some.Select(one => one.Inventory)]));
            text.Append(Reliability(some.Key + "both ends", [.. some.Select(one => one.Both)]));
        }

        return text.ToString();
    }

    internal static string Reliability(string name, IReadOnlyCollection<Claim> claims)
    {
        var bins = CalibrationMeasures.Reliability(claims, 0, 0.5, 0.8, 0.9, 0.95, 0.99);
        var (brier, error) = (CalibrationMeasures.BrierScore(claims), CalibrationMeasures.ExpectedError(bins));
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"\n{name}: Brier score {brier:0.0000}, calibration error {error:0.0000}\n\n");
        text.Append("| claimed | labels | mean claim | right |\n| --- | --- | --- | --- |\n");
        foreach (var bin in bins)
        {
            text.Append(CultureInfo.InvariantCulture, $"| {bin.From} to {bin.To} | {bin.Count} | ");
            text.Append(CultureInfo.InvariantCulture, $"{bin.MeanProbability:0.000} | {bin.Accuracy:0.000} |\n");
        }

        return text.ToString();
    }

    internal static string Right(IEnumerable<Claim> claims) =>
        (100 * claims.Average(claim => claim.IsRight ? 1.0 : 0)).ToString("0.0", CultureInfo.InvariantCulture) + " %";

    // No two cables say the same.
    private static IEnumerable<Claim> Together(List<Measured> all)
    {
        var chosen = JointReading.Choose([.. all.Select((one, at) => new ReadEnd($"{at}", one.BothEnds))]);
        return all.Zip(chosen, (one, choice) => one.ClaimOf(choice.Reading ?? one.BothEnds.FirstOrDefault()));
    }

    internal static CtcDecoder Decoder(TextRecognizer recognizer, string pattern, LabelFamily family, GroupValues[] lists)
    {
        var automaton = LabelGrammarTests.Compiled(pattern, lists);
        return new CtcDecoder(automaton, GlyphWeights.From(automaton.Glyphs, recognizer.Classes, family.Confusions));
    }
}
