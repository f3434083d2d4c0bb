using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Wiring.Labels;

namespace Archive.Wiring.Safety;

/// <summary>That a step breaks a rule: it comes before cables that must come before it.</summary>
/// <param name="Frame">Id of the frame where it does; null for a rule that holds among all cables.</param>
/// <param name="Waiting">How many cables that must come before it come after it.</param>
/// <param name="Named">Ids of some of those, at least one: those that it lies over, in the record's order; where it lies over none, the next of them.</param>
/// <param name="LiesOver">Whether the cables named lie beneath it.</param>
public sealed record RuleBreak(OrderRule Rule, string? Frame, int Waiting, ImmutableArray<string> Named, bool LiesOver);

/// <summary>Finds where an order breaks rules.</summary>
/// <remarks>It looks at the finished order alone, whatever made it. Linear in steps, their ends and what they lie over.</remarks>
internal sealed class RuleBreaks
{
    private readonly ArchiveModel _record;
    private readonly ImmutableArray<(Cable Cable, CableRole Role, ImmutableArray<string> Frames)> _steps;
    private readonly Dictionary<string, int> _turns = new(StringComparer.Ordinal);
    private readonly List<RuleBreak>[] _breaks;

    private RuleBreaks(ArchiveModel record, ImmutableArray<OrderRule> rules, ImmutableArray<CableReading> order)
    {
        _record = record;
        _steps = [.. order.Select(reading => (reading.Cable, CableRoles.Of(record, reading.Cable), reading.Ends.Select(end => end.At.Frame).Distinct(StringComparer.Ordinal).ToImmutableArray()))];
        for (var step = 0; step < _steps.Length; step++) _turns[_steps[step].Cable.Id] = step;
        _breaks = [.. _steps.Select(_ => new List<RuleBreak>())];
        foreach (var rule in rules) Find(rule);
    }

    /// <summary>The breaks of each step.</summary>
    /// <param name="order">The cables in order, each once.</param>
    public static ImmutableArray<ImmutableArray<RuleBreak>> Of(ArchiveModel record, ImmutableArray<OrderRule> rules, ImmutableArray<CableReading> order) =>
        [.. new RuleBreaks(record, rules, order)._breaks.Select(breaks => breaks.ToImmutableArray())];

    // From the last step to the first, so that what comes after a step is known when its turn comes.
    private void Find(OrderRule rule)
    {
        var later = new Dictionary<string, (int Count, string Next)>(StringComparer.Ordinal);
        for (var step = _steps.Length - 1; step >= 0; step--)
        {
            var (cable, role, frames) = _steps[step];
            var places = rule.IsPerFrame ? frames : [""];
            if (rule.Roles.Contains(role) != rule.ComesFirst)
            {
                foreach (var place in places)
                {
                    if (!later.TryGetValue(place, out var waiting)) continue;
                    ImmutableArray<string> beneath = [.. Beneath(rule, step, place)];
                    _breaks[step].Add(new RuleBreak(rule, rule.IsPerFrame ? place : null, waiting.Count, beneath.IsEmpty ? [waiting.Next] : beneath, !beneath.IsEmpty));
                }
            }
            else
            {
                foreach (var place in places) later[place] = (later.GetValueOrDefault(place).Count + 1, cable.Id);
            }
        }
    }

    private IEnumerable<string> Beneath(OrderRule rule, int step, string place) =>
        from name in _steps[step].Cable.LiesOver
        let id = _record.Find<Cable>(name.Value)?.Id
        where id is not null && _turns.TryGetValue(id, out var turn) && turn > step
            && rule.PutsBefore(_steps[turn].Role, _steps[step].Role)
            && (!rule.IsPerFrame || _steps[turn].Frames.Contains(place))
        select id;
}
