using System.Collections.Immutable;
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
using Archive.Wiring.Safety;

namespace Archive.Site.PlanPages;

/// <summary>Writes steps down in words that can be read aloud.</summary>
/// <param name="warnings">Finds the warnings of steps.</param>
/// <param name="release">Makes the line of a frame that is free to go.</param>
internal sealed class CrewStepWriter(
    ArchiveModel archive,
    FactFormatter formatter,
    RowBuilder rowBuilder,
    DecablingOrder order,
    StepWarnings warnings,
    Func<string, Func<PageLocation, ReleaseLine>> release)
{
    private readonly HashSet<string> _pulled =
        [.. order.Steps.Where(step => step.Pulls).Select(step => step.Cable!.Id)];

    /// <summary>A step in words, with its warnings and how far it has come.</summary>
    public CrewStep Write(DecablingStep step, PageLocation location) => WriteWork(step, location) with
    {
        State = TextPartWriter.Write(StateText.Parts(step.State), archive, location),
        Warnings = [.. warnings.Of(step).Select(warning => WarningLine.Create(warning, archive, location))],
    };

    /// <summary>What is done in a step, in words.</summary>
    public CrewStep WriteWork(DecablingStep step, PageLocation location)
    {
        if (step.Cable is not { } cable) return OnFrame(step, location);
        var knot = BeginsKnot(step) ? step.Cycle : null;
        return Plain(step, location, RecordLink.To(cable, location), RowBuilder.PrintOn(cable), KindOf(cable)) with
        {
            Knot = knot is null
                ? []
                : [.. knot.Cables.Where(other => other.Id != cable.Id).Select(other => RecordLink.To(other, location))],
            KnotDrawn = knot is null ? HtmlFragment.None : TangleDiagram.Draw(knot, archive, other => location.To(other).Value),
            Does = [.. Does(step, cable, location)],
            Released = [.. step.Released.Select(frame => release(frame)(location))],
        };
    }

    /// <summary>What the tick of a step is kept under.</summary>
    public static string TickOf(DecablingStep step) =>
        step.Pulls
            ? step.Cable!.Id
            : (step.Cable?.Id ?? step.Frame!.Id) + step.Action switch
            {
                StepAction.MakeSafe => ":safe",
                StepAction.TakeOutUnits => ":units",
                StepAction.Release => ":free",
                _ => ":off",
            };

    private CrewStep OnFrame(DecablingStep step, PageLocation location) => step.Action == StepAction.Release
        ? Plain(step, location, RecordLink.To(step.Frame!, location), [], "") with
        {
            Does =
            [
                new CrewText("Look at it all round, top and bottom: no cable may hold it, named here or not.", null),
                .. order.ReleaseOf(step.Frame!.Id) is { Staying: { IsEmpty: false } staying }
                    ? [new CrewText($"Check one by one what stays: {string.Join(", ", staying)}.", null)]
                    : Array.Empty<CrewText>(),
                new CrewText("From now on only its bolts hold it: the person who leads the move says when they are undone.", null),
            ],
        }
        : step.Action == StepAction.TakeOutUnits
        ? Plain(step, location, RecordLink.To(step.Frame!, location), [], Phrase.Count(step.Units.Length, "unit")) with
        {
            Does =
            [
                new CrewText($"{string.Join(", ", step.Units.Select(DecablingSentences.NameOf))}.", null),
                new CrewText(
                    "Once the frame is proved dead: label each with its slot, draw it out straight, without force, and pack it apart.", null),
            ],
            Released = [.. step.Released.Select(frame => release(frame)(location))],
        }
        : Plain(step, location, RecordLink.To(step.Frame!, location), [], "its batteries") with
        {
            Does = [new CrewText(
                "Licensed people take its links off with insulated tools, one pole at a time, and cover every post. It stays live: nobody else works near it until the cells are gone.",
                null)],
        };

    private static CrewStep Plain(DecablingStep step, PageLocation location, RecordLink of, ImmutableArray<string> prints, string kind) =>
        new(step.Number, of, prints, kind)
        {
            Tick = TickOf(step),
            IsCable = step.Cable is not null,
            Action = Phrase.Heading(ActionText.Describe(step.Action)),
            IsDone = step.State.Status == StepStatus.Done,
            State = HtmlFragment.None,
            Warnings = [],
            Knot = [],
            KnotDrawn = HtmlFragment.None,
            Does = [],
            Minutes = step.Cable is null
                ? ""
                : step.IsLengthKnown
                ? DecablingSentences.Lasts(step.Minutes)
                : $"{DecablingSentences.Lasts(step.Minutes)} plus time for its length, which is unknown",
            Elapsed = DecablingSentences.Lasts(step.Elapsed),
            Released = [],
        };

    // A tangle is loosened as one: that is said at the first step on it.
    private bool BeginsKnot(DecablingStep step) =>
        step.Cycle is { } knot && (step.Number == 1 || !ReferenceEquals(order.Steps[step.Number - 2].Cycle, knot));

    private string KindOf(Cable cable)
    {
        var kind = cable.Kind is { } id ? archive.Find<CableKind>(id.Value)?.Title ?? id.Value : "";
        var length = cable.Length is { } known ? formatter.Text.Format(known.Value) : "length unknown";
        return kind.Length == 0 ? length : $"{kind}, {length}";
    }

    private IEnumerable<CrewText> Does(DecablingStep step, Cable cable, PageLocation location)
    {
        if (cable.Fate?.Value == Fate.Sever && step.Pulls)
        {
            yield return new CrewText(
                $"To be cut. Reason: {Phrase.Sentence(cable.Reason?.Value ?? "none is recorded")} {Allowed(cable)} Show the crew lead where before you cut.", null);
        }

        if (cable.Fate is null) yield return new CrewText("The record does not say what happens to it: ask before you pull it.", null);
        if (step.Disconnects)
        {
            foreach (var words in Frees(step, location)) yield return words;
        }

        if (!step.Pulls)
        {
            yield return new CrewText(cable.Fate?.Value == Fate.Leave
                ? "It stays where it lies: tie its ends back and cap them."
                : _pulled.Contains(cable.Id)
                ? $"Leave it where it lies: it is {(cable.Fate?.Value == Fate.Sever ? "cut and " : "")}pulled in a later step."
                : "Leave it where it lies: tie its ends back and cap them.", null);
            yield break;
        }

        if (step.Under.Length > 0)
            yield return new CrewText(
                $"It lies under {string.Join(", ", step.Under)}, which {(step.Under.Length == 1 ? "stays" : "stay")} in place: draw it out from underneath, without force.", null);
        foreach (var words in Pulls(step, location)) yield return words;
        yield return new CrewText(EndsAs(cable), null);
    }

    private static string Allowed(Cable cable) => cable.Permission is { By: { } by } permission
        ? $"Allowed by {Phrase.OneLine(by.Value)}{(permission.On is { } on ? $", {DateText.Format(on.Value)}" : "")}{(permission.Document is { } document ? $" ({Phrase.OneLine(document.Value)})" : "")}."
        : "No permission to cut it is recorded: do not cut before the crew lead has seen one.";

    private IEnumerable<CrewText> Frees(DecablingStep step, PageLocation location)
    {
        var staysFast = step.Frees.Length < step.Reading!.Ends.Length;
        if (step.Reading.Ends.IsEmpty)
        {
            yield return new CrewText("Neither end is recorded: follow the cable to both ends, tag both, then disconnect them.", null);
            yield break;
        }

        if (step.Reading.Ends.Length < 2)
        {
            yield return new CrewText(
                step.Role == CableRole.Outside
                    ? "Its far end is outside: not yours to touch."
                    : "Its far end is not recorded: follow the cable there, tag that end, then disconnect it.",
                null);
        }

        for (var end = 0; end < step.Frees.Length; end++) yield return At(end == 0 ? "At" : "and at", step.Frees[end], location);
        if (step.Frees.IsEmpty) yield return At("It stays connected at", step.Reading.Ends[0], location);
        yield return new CrewText(staysFast && !step.Frees.IsEmpty ? "only." : ".", null);
    }

    private CrewText At(string words, KnownEnd end, PageLocation location) =>
        new(words, rowBuilder.At(end, location)) { Connector = end.Seen?.Connector?.Value ?? "" };

    private IEnumerable<CrewText> Pulls(DecablingStep step, PageLocation location)
    {
        var trays = step.Pull.Trays.IsEmpty
            ? ""
            : $" out of {(step.Pull.Trays.Length == 1 ? "tray" : "trays")} {string.Join(", then ", step.Pull.Trays)}";
        if (step.Pull.To is not { } to)
        {
            yield return new CrewText($"Lift it{trays}.", null);
            yield break;
        }

        yield return new CrewText($"Pull it back{trays} to", rowBuilder.At(to, location));
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
}
