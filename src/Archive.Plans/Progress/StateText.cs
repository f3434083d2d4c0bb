using System.Collections.Immutable;
using Archive.Data.Tables;
using Archive.Plans.Wording;
using Archive.Records.Wording;
using Archive.Wiring.Progress;

namespace Archive.Plans.Progress;

/// <summary>How far a step has come, in words. Page, JSON, CSV and terminal take them from here.</summary>
public static class StateText
{
    /// <summary>What a step waits for, in words: lower case, no full stop.</summary>
    /// <param name="precondition">What it waits for.</param>
    public static ImmutableArray<TextPart> Describe(Precondition precondition)
    {
        TextPart frame = new(precondition.Frame ?? "", Record: precondition.Frame);
        var (are, lie) = precondition.Count == 1 ? ("is", "lies") : ("are", "lie");
        return precondition.Kind switch
        {
            PreconditionKind.CableFound => ["it was searched for and not found"],
            PreconditionKind.CableUnloaded => ["it is in transit"],
            PreconditionKind.CableTakenOut => ["it has not been taken out"],
            PreconditionKind.CableArrived => ["it has not arrived"],
            PreconditionKind.FrameInPlace => [frame, " is not in its place"],
            PreconditionKind.FrameFixed => ["the record does not say that ", frame, " is level and anchored"],
            PreconditionKind.EarthTested => ["the record does not say that the earth of ", frame, " is tested"],
            PreconditionKind.CableLaid => ["it is not laid yet"],
            PreconditionKind.FrameEarthed when precondition.Count == 0 => ["no earth is recorded for ", frame],
            PreconditionKind.FrameEarthed => [frame, " is not earthed: ", .. Cables(), $" {are} not connected"],
            PreconditionKind.Recorded when precondition.Count > 0 =>
                [frame, " has left, and the record does not say what happened to ", .. Cables("unit")],
            PreconditionKind.UnitsTakenOut => ["the record does not say that ", .. Cables("unit"), $" {are} out of ", frame],
            PreconditionKind.Recorded => [frame, " has left, and the record does not say what happened to this cable"],
            PreconditionKind.OutsideOff => ["the record does not say that ", .. Cables("outside line"), $" {are} off"],
            PreconditionKind.Isolated => ["the record does not say that a licensed person has isolated it and proved it dead"],
            PreconditionKind.EndsOff => ["it is not disconnected yet"],
            PreconditionKind.FeedersOff => ["the record does not say that ", .. Cables("feeder"), $" {are} off"],
            PreconditionKind.OthersOff => ["the record does not say that ", .. Cables(), $" {are} off ", frame],
            PreconditionKind.CablesOverOut => [.. Cables(), $" {lie} over it"],
            PreconditionKind.OthersOn => [.. Cables(), $" {are} not connected yet"],
            PreconditionKind.UnitsOut =>
                ["the record does not say that ", .. Cables("unit"), $" {are} out of ", frame, ": its supply is proved without them"],
            PreconditionKind.SupplyProved => [
                "a licensed person proves polarity and voltage at ", frame,
                " without its units, then isolates and discharges it again and proves it dead"
            ],
            PreconditionKind.UnitsIn => [.. Cables("unit"), $" {are} not back in ", frame],
            _ => ["a licensed or competent person does it or says that you may"],
        };

        IEnumerable<TextPart> Cables(string noun = "cable") => TextPart.Named(precondition.Cables, precondition.Count, noun);
    }

    /// <summary>How far a step has come, in a sentence.</summary>
    /// <param name="state">How far.</param>
    public static string Describe(StepState state) => string.Concat(Parts(state).Select(part => part.Text));

    /// <summary>The same, with what it names.</summary>
    /// <param name="state">How far.</param>
    public static ImmutableArray<TextPart> Parts(StepState state) => state.Status switch
    {
        StepStatus.Done =>
            [
                $"Done{(state.By!.On is { } on ? " " + DateText.Format(on.Value) : "")} (",
                new TextPart(state.By.Id, Record: state.By.Id),
                ")."
            ],
        StepStatus.Waiting =>
            [
                "Waiting: ",
                .. state.WaitsFor.SelectMany((each, index) => index == 0 ? Describe(each) : ["; ", .. Describe(each)]),
                "."
            ],
        _ => ["The record shows no obstacle."],
    };

    /// <summary>The date up to which the record says what was done, in a sentence; null if it has no events.</summary>
    /// <param name="progress">What has been done.</param>
    public static string? AsOf(WorkProgress progress) =>
        progress.AsOf is { } last ? $"As of {DateText.Format(last.On!.Value.Value)}, the date of the last event." : null;

    /// <summary>The columns that say how far a step has come.</summary>
    /// <typeparam name="T">The step.</typeparam>
    /// <param name="shape">What data files say of the step.</param>
    /// <param name="state">How far it has come.</param>
    internal static DataShape<T> State<T>(this DataShape<T> shape, Func<T, StepState> state) => shape
        .Text(
            "state",
            "done, waiting (for something that the record names) or open (the record shows no obstacle), as of the last event",
            step => DataValue.Word<StepStatus>(state(step).Status))
        .Text("state_why", "when it was done, or what it waits for", step => Describe(state(step)))
        .Text("done_by", "id of the event by which it was done", step => state(step).By?.Id)
        .Text("done_on", "date of that event", step => state(step).By?.On?.Value.Text);
}
