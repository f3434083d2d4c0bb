using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Wiring.Progress;
using Archive.Wiring.Safety;
using Archive.Wiring.Units;

namespace Archive.Wiring.Reconnecting;

/// <summary>Writes down what is done to put frames back together.</summary>
/// <remarks>
/// <para>
/// The frames are fixed. Their earths go on, those nearest the building's earth first, and are tested. Cables are laid in the order in
/// which they are given, power apart. Then ends are connected as <see cref="OrderRules.Connecting"/>
/// has it, signal and control by position and port. Then come the checks before power. Of frames with plug-in units the supply is proved
/// without them, and made dead again, before they go in; cables on their fronts come next, and power follows in stages. Common practice, no
/// source.
/// </para>
/// <para>Linear in frames, cables and ends, but for sorting.</para>
/// </remarks>
internal sealed class PuttingBackWriter
{
    private readonly ArchiveModel _record;
    private readonly UnitIndex _units;
    private readonly EarthTree _earths;
    private readonly ImmutableArray<Frame> _frames;
    private readonly string? _here;
    private readonly Func<string, LaidRun?> _runs;
    private readonly Dictionary<string, int> _places;
    private readonly List<PuttingBackStep> _steps = [];

    /// <summary>Nothing written yet.</summary>
    /// <param name="units">What was found in their slots.</param>
    /// <param name="frames">The frames that are put back, in walking order.</param>
    /// <param name="here">Id of the frame at which ends are connected; null for all.</param>
    /// <param name="runs">How a cable will lie in the hall, by its id.</param>
    public PuttingBackWriter(
        ArchiveModel record, UnitIndex units, EarthTree earths, ImmutableArray<Frame> frames, string? here, Func<string, LaidRun?> runs)
    {
        _units = units;
        (_record, _earths, _frames, _here, _runs) = (record, earths, frames, here, runs);
        _places = frames.Select((frame, place) => (frame.Id, place))
            .ToDictionary(pair => pair.Id, pair => pair.place, StringComparer.Ordinal);
    }

    /// <summary>The list of some cables.</summary>
    /// <param name="cables">The cables, in the order in which they are laid.</param>
    /// <param name="state">Says how far a step has come.</param>
    public PuttingBackList Write(ImmutableArray<RefittedCable> cables, Func<PuttingBackStep, StepState> state)
    {
        ImmutableArray<PuttingBackShort> tooShort = [.. cables.Where(laid => IsTooShort(laid.Cable.Id))
            .Select(laid => new PuttingBackShort(laid, _runs(laid.Cable.Id)!))];
        ImmutableArray<RefittedCable> fit = [.. cables.Where(laid => !IsTooShort(laid.Cable.Id))];
        var isEarth = fit.ToLookup(laid => laid.Role == CableRole.Earth && (laid.Ends.IsEmpty || laid.Ends.Any(end => end.Unit is null)));
        var earths = isEarth[true].OrderBy(laid => _earths.DepthOf(laid.Cable.Id));
        var others = isEarth[false].ToList();

        foreach (var frame in _frames.Where(frame => frame.Owner is null)) On(frame, StepAction.Fix, PuttingBackStage.Frames);
        foreach (var earth in earths)
        {
            Add(new PuttingBackStep(0, StepAction.LayAndConnect, PuttingBackStage.Earth)
            {
                Laid = earth,
                Ends = [.. earth.Ends.Where(end => end.Unit is null)],
            });
        }

        // The crew looks for the earth there: where it is no step, this one says why.
        var lacking = tooShort.SelectMany(each => _earths.FramesOf(each.Laid.Cable.Id).Select(frame => (Frame: frame, Short: each)))
            .ToLookup(pair => pair.Frame, pair => pair.Short, StringComparer.Ordinal);
        foreach (var frame in _frames.Where(frame => frame.Owner is null))
        {
            Add(new PuttingBackStep(0, StepAction.TestEarth, PuttingBackStage.Earth)
            {
                Frame = frame,
                EarthsTooShort = [.. lacking[frame.Id]],
            });
        }

        Lay(others.Where(laid => !OrderRules.FeedersLast.Roles.Contains(laid.Role)), PuttingBackStage.Laying);
        Lay(others.Where(laid => OrderRules.FeedersLast.Roles.Contains(laid.Role)), PuttingBackStage.LayingPower);
        Connect(others.Where(laid => !OrderRules.FeedersLast.Roles.Contains(laid.Role)), PuttingBackStage.Signal);
        Connect(
            others.Where(laid => OrderRules.FeedersLast.Roles.Contains(laid.Role) && !OrderRules.OutsideLast.Roles.Contains(laid.Role)),
            PuttingBackStage.Feeders);
        Connect(others.Where(laid => OrderRules.OutsideLast.Roles.Contains(laid.Role)), PuttingBackStage.OutsideLines);
        foreach (var frame in _frames.Where(frame => frame.Owner is null)) On(frame, StepAction.Check, PuttingBackStage.Checks);
        ImmutableArray<Frame> withUnits = [.. _frames.Where(frame => frame.Owner is null && _units.In(frame.Id).Any())];
        foreach (var frame in withUnits) On(frame, StepAction.ProveSupply, PuttingBackStage.Supply);
        foreach (var frame in withUnits) On(frame, StepAction.FitUnits, PuttingBackStage.Units);
        foreach (var roles in fit.GroupBy(laid => OrderRules.Connecting.Rank(laid.Role)).OrderBy(roles => roles.Key))
            Connect(roles, PuttingBackStage.UnitFronts);
        foreach (var frame in withUnits) On(frame, StepAction.Start, PuttingBackStage.Start);
        return new PuttingBackList([.. WithEarths(fit).Select(step => step with { State = state(step) })], tooShort);
    }

    private bool IsTooShort(string cable) => _runs(cable)?.ShortBy is not null;

    private void On(Frame frame, StepAction action, PuttingBackStage stage) => Add(new PuttingBackStep(0, action, stage) { Frame = frame });

    private void Add(PuttingBackStep step) =>
        _steps.Add(step with { Number = _steps.Count + 1, Run = step.Laid is { } laid ? _runs(laid.Cable.Id) : null });

    private void Lay(IEnumerable<RefittedCable> cables, PuttingBackStage stage)
    {
        foreach (var laid in cables) Add(new PuttingBackStep(0, StepAction.Lay, stage) { Laid = laid, Ends = laid.Ends });
    }

    // End by end, frame by frame: anyone who stands at a frame goes through its positions and ports. The end that a coil stayed fast to is
    // on already.
    private void Connect(IEnumerable<RefittedCable> cables, PuttingBackStage stage)
    {
        var ends = cables.SelectMany(laid =>
            laid.Ends.Where(end => !end.StaysFast
                && end.Unit is null == (stage != PuttingBackStage.UnitFronts)
                && (_here is null || end.End.At.Frame == _here)).Select(end => (Laid: laid, End: end)))
            .OrderBy(each => _places.GetValueOrDefault(each.End.End.At.Frame, int.MaxValue))
            .ThenBy(each => new NaturalSortKey(each.End.End.At.Frame))
            .ThenBy(each => new NaturalSortKey(each.End.End.At.Position ?? ""))
            .ThenBy(each => new NaturalSortKey(each.End.End.At.Port ?? ""))
            .ThenBy(each => each.Laid.Cable.Id, StringComparer.Ordinal);
        foreach (var (laid, end) in ends) Add(new PuttingBackStep(0, StepAction.Connect, stage) { Laid = laid, Ends = [end] });
    }

    // The rule speaks of all earths of a frame, and some may be on another list, or too short for this one.
    private IEnumerable<PuttingBackStep> WithEarths(ImmutableArray<RefittedCable> fit)
    {
        var listed = fit.Where(laid => laid.Role == CableRole.Earth).Select(laid => laid.Cable.Id).ToHashSet(StringComparer.Ordinal);
        var said = new HashSet<string>(StringComparer.Ordinal);
        foreach (var step in _steps)
        {
            if (!step.Connects)
            {
                yield return step;
                continue;
            }

            var frames = step.Ends.Select(end => end.End.At.Frame).Distinct(StringComparer.Ordinal);
            yield return step with
            {
                EarthsBefore = [.. frames.Where(frame => _earths.RoleAt(
                frame, step.Laid!.Cable.Id, step.Laid.Role) != CableRole.Earth && said.Add(frame)).Select(Missing).OfType<EarthBefore>()]
            };
        }

        EarthBefore? Missing(string frame)
        {
            var all = _earths.EarthsOf(frame);
            ImmutableArray<string> missing = [.. all.Where(earth => !listed.Contains(earth))];
            return all.IsEmpty || !missing.IsEmpty
                ? new EarthBefore(frame, [.. missing.Take(EarthBefore.MostNamed)], missing.Length)
                : null;
        }
    }
}
