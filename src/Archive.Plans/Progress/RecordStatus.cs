using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Plans.Wording;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Records.Wording;
using Archive.Wiring.Decabling;
using Archive.Wiring.Journeys;
using Archive.Wiring.Progress;
using Archive.Wiring.Reconnecting;

namespace Archive.Plans.Progress;

/// <summary>Where a frame or cable is, how it is, and what comes next: the first line of its page.</summary>
public sealed class RecordStatus
{
    private readonly ArchiveModel _record;
    private readonly WorkProgress _progress;
    private readonly DecablingOrder _takingOut;
    private readonly ReconnectionOrder _connecting;
    private readonly Lazy<FrozenDictionary<string, DecablingStep>> _out;
    private readonly Lazy<FrozenDictionary<string, ImmutableArray<PuttingBackStep>>> _back;
    private readonly Lazy<FrozenDictionary<string, LaidRun>> _tooShort;
    private readonly UnitFormatter _text;

    /// <summary>From the steps of both directions.</summary>
    /// <param name="context">The record, and what has been done.</param>
    public RecordStatus(PlanContext context, DecablingOrder takingOut, ReconnectionOrder connecting)
    {
        (_record, _progress, _takingOut, _connecting) = (context.Record, context.Progress, takingOut, connecting);
        _text = new UnitFormatter(context.Record.Statement.Units?.Value ?? default);
        _out = new(() => takingOut.Steps.Where(step => step.Cable is not null).GroupBy(step => step.Cable!.Id, StringComparer.Ordinal)
            .ToFrozenDictionary(
                steps => steps.Key,
                steps => steps.FirstOrDefault(step => step.State.Status != StepStatus.Done) ?? steps.Last(),
                StringComparer.Ordinal));
        _back = new(() => context.FramesToConnect.SelectMany(frame => connecting.ListOf(frame).Steps)
            .Where(step => step.Laid is not null)
            .GroupBy(step => step.Laid!.Cable.Id, StringComparer.Ordinal)
            .ToFrozenDictionary(steps => steps.Key, steps => steps.OrderBy(step => step.Stage).ToImmutableArray(), StringComparer.Ordinal));
        _tooShort = new(() => context.FramesToConnect.SelectMany(frame => connecting.ListOf(frame).TooShort)
            .DistinctBy(each => each.Laid.Cable.Id)
            .ToFrozenDictionary(each => each.Laid.Cable.Id, each => each.Run, StringComparer.Ordinal));
    }

    /// <summary>Whether a cable is out of the place where it was found.</summary>
    public bool IsOut(string cable) => _progress.TakenOutBy(cable) is not null;

    /// <summary>The line of a cable.</summary>
    /// <param name="cable">A cable that is not withdrawn.</param>
    public ImmutableArray<TextPart> Of(Cable cable)
    {
        if (_progress.ConnectedBy(cable.Id) is not null) return [.. Where(cable.Id), " Nothing is left to do."];
        if (IsOut(cable.Id) && NextOf(cable.Id) is { } back)
            return [.. Where(cable.Id), " Next: ", .. Words(back), ". ", .. StateText.Parts(back.State)];
        if (IsOut(cable.Id) && _connecting.Find(cable.Id) is { } laid) return [.. Where(cable.Id), NoStep(laid)];
        if (cable.Owner is { } owner)
            return [.. Where(cable.Id), $" It belongs to {Phrase.OneLine(owner.Value)} and stays: do not touch it."];
        if (!_out.Value.TryGetValue(cable.Id, out var next)) return [.. Where(cable.Id), " It stays in place."];
        if (next.State.Status == StepStatus.Done) return [.. Where(cable.Id), " It stays in place, disconnected."];
        return [.. Where(cable.Id), $" Next: {Words(next.Action)}. ", .. StateText.Parts(next.State)];
    }

    /// <summary>The line of a frame.</summary>
    /// <param name="frame">A frame that is not withdrawn.</param>
    public ImmutableArray<TextPart> Of(Frame frame)
    {
        if (frame.Owner is { } owner)
            return [.. Where(frame.Id), $" It belongs to {Phrase.OneLine(owner.Value)} and stays: do not touch it."];
        var cables = _connecting.At(frame.Id);
        if (_progress.JourneyOf(frame.Id)?.Situation.IsInPlace() == true) return [.. Where(frame.Id), .. PutBack(frame, cables)];
        var next = _progress.JourneyOf(frame.Id)?.Situation switch
        {
            Situation.AsFound or Situation.Disconnected when cables.IsEmpty => "",
            Situation.AsFound or Situation.Disconnected =>
                $" Next: take its cables out. {Progress(cables.Count(laid => IsOut(laid.Cable.Id)), cables.Length, "out")}{Released(frame.Id)}.",
            Situation.OnTheRoad => " Next: unload it.",
            Situation.Arrived or Situation.Unpacked => " Next: set it in place.",
            Situation.Removed or Situation.Packed => " Next: load it.",
            _ => "",
        };
        return [.. Where(frame.Id), next];
    }

    // The next step of the lists of its frames, so that page and lists cannot disagree.
    private PuttingBackStep? NextOf(string cable) => _back.Value.TryGetValue(cable, out var steps)
        ? steps.FirstOrDefault(step => step.State.IsReady) ?? steps.FirstOrDefault(step => step.State.Status != StepStatus.Done)
        : null;

    private string NoStep(RefittedCable laid) => _tooShort.Value.TryGetValue(laid.Cable.Id, out var run)
        ? $" It is no step of a re-connection list, because it is too short for the hall by {_text.FormatComputed(run.ShortBy!.Value)}. Someone decides first what becomes of it."
        : laid.Ends.IsEmpty
        ? " It is no step of a re-connection list, because no end of it is known."
        : " It is no step of a re-connection list.";

    private static IEnumerable<TextPart> Words(PuttingBackStep step) => step.Action switch
    {
        StepAction.Lay => ["lay it"],
        StepAction.LayAndConnect => ["lay and connect it"],
        _ => ["connect it at ", new TextPart(step.Ends[0].End.At.ToString(), At: step.Ends[0].End.At)],
    };

    // The next step of its list, so that page and list cannot disagree.
    private IEnumerable<TextPart> PutBack(Frame frame, ImmutableArray<RefittedCable> cables)
    {
        var connected = cables.IsEmpty
            ? ""
            : $" {Progress(cables.Count(laid => _progress.ConnectedBy(laid.Cable.Id) is not null), cables.Length, "connected")}.";
        if (_connecting.ListOf(frame).Next is not { } next) return [" Nothing is left to do.", connected];
        return
        [
            .. next.Laid is { } laid
                ? [$" Next: {ActionText.Describe(next.Action)} ", new TextPart(laid.Cable.Id, Record: laid.Cable.Id)]
                : (TextPart[])[
                    " Next: ",
                    next.Action switch
                    {
                        StepAction.Fix => "level and anchor it",
                        StepAction.TestEarth or StepAction.ProveSupply or StepAction.FitUnits or StepAction.Start =>
                            ActionText.DescribeAlone(next.Action),
                        _ => "make the checks before power",
                    },
                ],
            $" (step {Phrase.Number(next.Number)} of its list). ",
            .. StateText.Parts(next.State),
            connected,
        ];
    }

    private static string Words(StepAction action) => action switch
    {
        StepAction.Disconnect => "disconnect it",
        StepAction.Pull => "pull it",
        _ => "take it out",
    };

    private static string Progress(int done, int all, string word) =>
        $"{Phrase.Count(done)} of {Phrase.Count(all)} {(done == 1 ? "is" : "are")} {word}";

    private string Released(string frame) =>
        _takingOut.ReleaseOf(frame)?.Step is { } step and > 0
            ? $"; it is free to go after step {Phrase.Number(step)} of the crew sheet"
            : "";

    // "Coiled, in Exhibition hall, east wall, since 4 June 2027 (E-0061)."
    private ImmutableArray<TextPart> Where(string id)
    {
        if (_progress.JourneyOf(id) is not { } journey) return [];
        var parts = ImmutableArray.CreateBuilder<TextPart>();
        parts.Add(Phrase.Heading(SituationText.Describe(journey.Situation)) + (journey.IsDamaged ? ", damaged" : ""));
        if (journey.Box is { } box)
        {
            parts.Add(", in ");
            parts.Add(new TextPart(box, Record: box));
        }

        if (journey.Hall is { } hall && _record.Find(hall) is { } found)
        {
            parts.Add(", in ");
            parts.Add(new TextPart(Phrase.OneLine(found.Title), Record: found.Id));
        }

        if (journey.Place is { Length: > 0 } place) parts.Add($", {Phrase.OneLine(place)}");
        if (journey.Since is { } since)
        {
            parts.Add(since.On is { } on ? $", since {DateText.Format(on.Value)} (" : " (");
            parts.Add(new TextPart(since.Id, Record: since.Id));
            parts.Add(")");
        }

        parts.Add(".");
        return parts.ToImmutable();
    }
}
