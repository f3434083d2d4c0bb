using System.Globalization;
using Archive.Halls.Layout;
using Archive.Plans;
using Archive.Plans.Now;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Site.Tests.Pages;
using Archive.Wiring.Progress;
using CsCheck;
using Xunit;

namespace Archive.Site.Tests.PlanPages;

public sealed class NowTests
{
    private static readonly Lazy<PlanContext> Demo = new(() =>
    {
        var parsed = RecordReader.Read(new ArchiveFolder(Path.Combine(Sketch.Repository, "content")));
        var record = ArchiveModel.From(parsed.Statement!, parsed.Records);
        return new PlanContext(record, HallLayouts.Create(record));
    });

    private static NowPlan Now(PlanContext context) => (NowPlan)NowPlan.Kind.Compute(context, new PlanRequest());

    [Fact]
    public void Crews_work_at_frames_apart_and_wait_for_people_alone()
    {
        var plan = Now(Demo.Value);
        Assert.NotEmpty(plan.Next);
        // The frame follows these words.
        Assert.Equal(
            ["level and anchor OP-01", "level and anchor OP-02", "level and anchor OP-04"],
            plan.Next.Where(step => step.Crew == CrewKind.Moving).Select(step => $"{step.Does} {step.Frame}"));
        var crews = plan.Next.Where(step => step.Crew != CrewKind.Moving).GroupBy(step => (step.Crew, step.Number)).ToList();
        foreach (var work in crews.GroupBy(crew => crew.Key.Crew))
        {
            var frames = work.SelectMany(crew => crew.SelectMany(Frames).Distinct()).ToList();
            Assert.Equal(frames.Distinct().Count(), frames.Count);
        }

        Assert.All(plan.Next, step =>
            Assert.All(step.State.WaitsFor, why => Assert.True(why.Kind is PreconditionKind.Licensed or PreconditionKind.Isolated)));

        static IEnumerable<string> Frames(NextStep step) => step.Frame is { } frame ? [frame] : step.Ends.Select(end => end.At.Frame);
    }

    [Fact]
    public void Displays_and_halls_have_come_as_far_as_their_lists_say()
    {
        CompletionStatus standing = Now(Demo.Value).Standings.Single(standing => standing.Of.Id == "first-light");
        Assert.Equal((89, 13, 28), (standing.Cables, standing.Connected, standing.TooShort));
        Assert.All(Now(Demo.Value).Standings, each =>
            Assert.True(each.InPlace <= each.Frames && each.Connected <= each.Cables && each.TooShort <= each.Cables));
    }

    [Fact]
    public void What_keeps_steps_back_is_counted_once_for_each_step()
    {
        var plan = Now(Demo.Value);
        var earthless = plan.Blocked.First(blocked => blocked.Crew == CrewKind.PuttingBack
            && string.Concat(blocked.Why.Select(part => part.Text)).Contains(" is not earthed: ", StringComparison.Ordinal));
        var frame = earthless.Why.First(part => part.Record is not null).Text;
        var waiting = Demo.Value.FramesToConnect
            .SelectMany(of => Demo.Value.Connecting.ListOf(of).Steps)
            .Where(step => step.State.WaitsFor.Any(why => why.Kind == PreconditionKind.FrameEarthed && why.Frame == frame))
            .Select(step => (
                step.Action,
                step.Laid?.Cable.Id ?? step.Frame!.Id,
                step.Action == StepAction.Connect ? step.Ends[0].End.At.ToString() : ""))
            .Distinct()
            .Count();
        Assert.True(waiting > 0);
        Assert.Equal(waiting, earthless.Steps);
    }

    /// <summary>What comes next is a step of a list, end by end; a crew begins with the step that the list has next.</summary>
    [Fact]
    public void The_next_steps_of_putting_back_are_steps_of_the_lists_of_frames()
    {
        var context = Demo.Value;
        var next = Now(context).Next.Where(step => step.Crew == CrewKind.PuttingBack).ToList();
        Assert.NotEmpty(next);
        Assert.All(next, step =>
        {
            var list = context.Connecting.ListOf(context.Record.Find<Frame>(step.List!)!);
            var listed = list.Steps[step.Step!.Value - 1];
            Assert.Equal(
                (listed.Laid?.Cable.Id, listed.Frame?.Id, string.Join(' ', listed.Ends.Select(end => end.End.At))),
                (step.Cable, step.Frame, string.Join(' ', step.Ends.Select(end => end.At))));
            Assert.Same(listed.State, step.State);
            Assert.True(step.State.IsReady);
        });
        Assert.All(next.GroupBy(step => step.Number).Select(crew => crew.First()), first =>
            Assert.Equal(context.Connecting.ListOf(context.Record.Find<Frame>(first.List!)!).Next!.Number, first.Step));
        Assert.All(context.FramesToConnect.Select(frame => context.Connecting.ListOf(frame)), list => Assert.Equal(
            list.Steps.FirstOrDefault(step => step.State.IsReady)
                ?? list.Steps.FirstOrDefault(step => step.State.Status != StepStatus.Done),
            list.Next));
    }

    // By hand: of 2, 4, 4, 10 the quartiles of definition 7 are 3.5, 4 and 5.5.
    [Fact]
    public void A_days_pace_is_the_quartiles_of_what_days_saw()
    {
        var pace = DailyPace.From(Days(2, 4, 4, 10))!;
        Assert.Equal((4, 20, 3.5, 4.0, 5.5), (pace.Days, pace.Cables, pace.Low, pace.Middle, pace.High));
        Assert.Equal((2, 3, 3), pace.DaysFor(10));
        Assert.Null(DailyPace.From(Days(2, 4)));
        // Four days of work in four days, so 6 more take 6 days; with one person named, two take half.
        Assert.Equal(new DateOnly(2026, 7, 7), pace.Finished(6, new DateOnly(2026, 7, 1)));
        Assert.Equal((1.0, 3, 2), (pace.People, pace.DaysWith(2, 6), pace.DaysWith(4, 6)));
        Assert.Null(pace.Finished(int.MaxValue, new DateOnly(2026, 7, 1)));
    }

    [Fact]
    public void A_day_never_sees_less_than_the_least_or_more_than_the_most() => Gen.Int[1, 9].Array[3, 8].Sample(counts =>
    {
        var pace = DailyPace.From(Days(counts))!;
        Assert.InRange(pace.Low, counts.Min(), pace.Middle);
        Assert.InRange(pace.High, pace.Middle, counts.Max());
    }, iter: 200);

    private static IEnumerable<ArchiveEvent> Days(params int[] counts)
    {
        var events = string.Concat(counts.Select((_, day) =>
            $"- {{id: E-{day + 1}, on: {new DateOnly(2026, 6, 1).AddDays(day).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}, what: removed, of: [C-1], by: [ob]}}\n"));
        return Sketch.Of(("events/e.yaml", events)).Record.Events
            .SelectMany((archiveEvent, day) => Enumerable.Repeat(archiveEvent, counts[day]));
    }
}
