using Archive.Drawings.Charts;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Text;
using Archive.Plans.Decabling;
using Archive.Plans.Progress;
using Archive.Plans.Warnings;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Site.Parts;
using Archive.Wiring.Decabling;
using Archive.Wiring.Labels;
using Archive.Wiring.Progress;

namespace Archive.Site.PlanPages;

/// <summary>Writes steps down in words that can be read aloud.</summary>
/// <param name="warnings">Finds the warnings of steps.</param>
/// <param name="release">Makes the line of a frame that is free to go.</param>
internal sealed class CrewStepWriter(ArchiveModel archive, FactFormatter formatter, RowBuilder rowBuilder, DecablingOrder order, StepWarnings warnings, Func<string, Func<PageLocation, ReleaseLine>> release)
{
    /// <summary>A step in words.</summary>
    public CrewStep Write(DecablingStep step, PageLocation place)
    {
        var knot = BeginsKnot(step) ? step.Cycle : null;
        return new CrewStep(step.Number, RecordLink.To(step.Cable, place), RowBuilder.PrintOn(step.Cable), KindOf(step))
        {
            IsDone = step.State.Status == StepStatus.Done,
            State = TextPartWriter.Write(StateText.Parts(step.State), archive, place),
            Warnings = [.. warnings.Of(step).Select(warning => WarningLine.Create(warning, archive, place))],
            Knot = knot is null ? [] : [.. knot.Cables.Where(cable => cable.Id != step.Cable.Id).Select(cable => RecordLink.To(cable, place))],
            KnotDrawn = knot is null ? HtmlFragment.None : TangleDiagram.Draw(knot, archive, cable => place.To(cable).Value),
            Does = [.. Does(step, place)],
            Minutes = step.IsLengthKnown ? DecablingSentences.Lasts(step.Minutes) : $"{DecablingSentences.Lasts(step.Minutes)} plus time for its length, which is unknown",
            Elapsed = DecablingSentences.Lasts(step.Elapsed),
            Released = [.. step.Released.Select(frame => release(frame)(place))],
        };
    }

    private bool BeginsKnot(DecablingStep step) => step.Cycle is { } knot && (step.Number == 1 || !ReferenceEquals(order.Steps[step.Number - 2].Cycle, knot));

    private string KindOf(DecablingStep step)
    {
        var kind = step.Cable.Kind is { } id ? archive.Find<CableKind>(id.Value)?.Title ?? id.Value : "";
        var length = step.Cable.Length is { } known ? formatter.Text.Format(known.Value) : "length unknown";
        return kind.Length == 0 ? length : $"{kind}, {length}";
    }

    private IEnumerable<CrewText> Does(DecablingStep step, PageLocation place)
    {
        if (step.Cable.Fate?.Value == Fate.Sever) yield return new CrewText($"To be cut. Reason: {Phrase.Sentence(step.Cable.Reason?.Value ?? "none is recorded")} Show the crew lead where before you cut.", null);
        if (step.Cable.Fate is null) yield return new CrewText("The record does not say what happens to it: ask before you pull it.", null);
        foreach (var words in Frees(step, place)) yield return words;
        if (step.Under.Length > 0) yield return new CrewText($"It lies under {string.Join(", ", step.Under)}, which {(step.Under.Length == 1 ? "stays" : "stay")} in place: draw it out from underneath, without force.", null);
        foreach (var words in Pulls(step, place)) yield return words;
        yield return new CrewText(EndsAs(step.Cable), null);
    }

    private IEnumerable<CrewText> Frees(DecablingStep step, PageLocation place)
    {
        var (from, to) = (step.Pull.From, step.Pull.To);
        var staysFast = StaysFast(step);
        if (to is null)
        {
            yield return new CrewText("Neither end is recorded: follow the cable to both ends, tag both, then disconnect them.", null);
            yield break;
        }

        if (from.IsEmpty) yield return new CrewText("Its far end is not recorded: follow the cable there, tag that end, then disconnect it.", null);
        for (var end = 0; end < from.Length; end++) yield return At(end == 0 ? "Disconnect it at" : "and at", from[end], place);
        if (!staysFast) yield return At(from.IsEmpty ? "Disconnect it at" : "and at", to.Value, place);
        yield return new CrewText(staysFast && from.Length > 0 ? "only." : ".", null);
    }

    private CrewText At(string words, KnownEnd end, PageLocation place) =>
        new(words, rowBuilder.At(end, place)) { Connector = end.Seen?.Connector?.Value ?? "" };

    private IEnumerable<CrewText> Pulls(DecablingStep step, PageLocation place)
    {
        var trays = step.Pull.Trays.IsEmpty ? "" : $" out of {(step.Pull.Trays.Length == 1 ? "tray" : "trays")} {string.Join(", then ", step.Pull.Trays)}";
        if (step.Pull.To is not { } to)
        {
            yield return new CrewText($"Lift it{trays}.", null);
            yield break;
        }

        yield return new CrewText($"Pull it back{trays} to", rowBuilder.At(to, place));
        yield return new CrewText(".", null);
    }

    private string EndsAs(Cable cable) => cable.Fate?.Value switch
    {
        Fate.Coil when cable.CoilTo is { } to => $"Coil it and lash it to {archive.Find<Frame>(to.Value)?.Id ?? to.Value}.",
        Fate.Coil => "Coil it. The record does not say which frame to lash it to: ask.",
        Fate.Remove => "Take it out whole and coil it by itself.",
        Fate.Sever => "Keep the pieces that you cut off together, with their tag.",
        _ => "Coil it and put it aside, with its tag.",
    };

    private static bool StaysFast(DecablingStep step) =>
        step.Cable is { Fate.Value: Fate.Coil, CoilTo: not null } && step.Pull.To is not null;
}
