using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Wording;

namespace Archive.LabelSheets;

/// <summary>How labels are put together, so that anyone who hangs them walks once.</summary>
public enum BatchBy
{
    /// <summary>By the rows of the hall where the machine was found, in the order of the row.</summary>
    Row,

    Module,

    /// <summary>By the displays that need them.</summary>
    Display,
}

/// <summary>Frames whose labels belong together.</summary>
/// <param name="Id">Id of the row or display, or name of the module; empty for frames that belong to none.</param>
/// <param name="Name">What it is called at the head of its sheets.</param>
/// <param name="Frames">The frames, in order.</param>
public sealed record LabelBatch(string Id, string Name, ImmutableArray<Frame> Frames)
{
    /// <summary>Puts all frames that stand into batches. Of displays a frame may be in several.</summary>
    /// <param name="by">How.</param>
    public static ImmutableArray<LabelBatch> Create(ArchiveModel record, BatchBy by)
    {
        var standing = record.Frames.Where(frame => !frame.IsWithdrawn).ToImmutableArray();
        IEnumerable<LabelBatch> batches = by switch
        {
            BatchBy.Row => (record.AsFoundHall?.Rows ?? []).Select(row =>
                new LabelBatch(row.Id.Value, Phrase.NameOf(row), [.. row.Places
                    .Select(place => place.Frame?.Value)
                    .OfType<string>()
                    .Select(record.Find<Frame>)
                    .OfType<Frame>()
                    .Where(frame => !frame.IsWithdrawn)])),
            BatchBy.Module => standing
                .Where(frame => frame.Module is not null)
                .GroupBy(frame => frame.Module!.Value.Value, StringComparer.Ordinal)
                .OrderBy(group => group.Key, StringComparer.Ordinal)
                .Select(group => new LabelBatch(group.Key, $"Module {group.Key}", [.. group])),
            _ => record.Displays
                .Where(display => !display.IsWithdrawn)
                .Select(display => new LabelBatch(display.Id, display.Title, [.. standing.Where(Needed(record, display.Needs).Contains)])),
        };
        var all = batches.Where(batch => batch.Frames.Length > 0).ToList();
        var met = all.SelectMany(batch => batch.Frames).ToHashSet();
        ImmutableArray<Frame> rest = [.. standing.Where(frame => !met.Contains(frame))];
        return rest.IsEmpty ? [.. all] : [.. all, new LabelBatch("", all.Count == 0 ? "All frames" : "Other frames", rest)];
    }

    // Every frame that a display names, and each alternative: whichever is chosen must have its label.
    private static HashSet<Frame> Needed(ArchiveModel record, ImmutableArray<Need> needs)
    {
        var frames = new HashSet<Frame>();
        var waiting = new Stack<Need>(needs);
        while (waiting.TryPop(out var need))
        {
            switch (need)
            {
                case FrameNeed one when record.Find<Frame>(one.Frame.Value) is { } frame && frames.Add(frame):
                    foreach (var further in frame.Needs) waiting.Push(further);
                    break;
                case AnyNeed { Module: { } module }:
                    foreach (var frame in record.Frames.Where(frame => frame.Module?.Value == module.Value))
                        waiting.Push(new FrameNeed(new Stated<string>(frame.Id, frame.IdSpan)));
                    break;
                case AnyNeed any:
                    foreach (var one in any.Of) waiting.Push(one);
                    break;
            }
        }

        return frames;
    }
}

/// <summary>Labels that belong together.</summary>
/// <param name="Id">Id of the row or display, or name of the module; empty for none.</param>
/// <param name="Name">What it is called at the head of its sheets.</param>
/// <param name="Labels">Its labels, in order.</param>
public sealed record BatchLabels(string Id, string Name, ImmutableArray<LabelText> Labels)
{
    /// <summary>Words a batch.</summary>
    /// <param name="words">What a frame's label says.</param>
    internal static BatchLabels Create(LabelBatch batch, Func<Frame, LabelText> words) =>
        new(batch.Id, batch.Name, [.. batch.Frames.Select(words)]);

    /// <summary>Words batches of frames.</summary>
    public static ImmutableArray<BatchLabels> Create(ArchiveModel record, IEnumerable<LabelBatch> batches) =>
        [.. batches.Select(batch => Create(batch, frame => LabelText.From(record, frame)))];

    /// <summary>The longest address of all labels, which decides how codes are set; empty without labels.</summary>
    internal static string LongestAddress(IEnumerable<BatchLabels> batches) =>
        batches.SelectMany(batch => batch.Labels).Select(label => label.Address).DefaultIfEmpty("").MaxBy(address => address.Length)!;
}
