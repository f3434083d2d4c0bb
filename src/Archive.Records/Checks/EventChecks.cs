using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;

namespace Archive.Records.Checks;

/// <summary>Events tell what happened since the machine was recorded as found.</summary>
internal static class EventChecks
{
    public static IEnumerable<Diagnostic> HappenedSince(CheckContext ground)
    {
        if (ground.Draft.Statement?.AsFound is not { Value.Earliest: { } began } asFound) return [];
        return
            from happened in ground.Draft.Records.OfType<ArchiveEvent>()
            where happened.On is { Value.Latest: { } latest } && latest < began
            let date = happened.On!.Value
            select DiagnosticDescriptors.EventBeforeAsFound.At(
                date.Span,
                $"event `{happened.Id}` is dated {date.Value.Text}, before the as-found state was recorded",
                "check the date; earlier events belong in prose",
                new Related(asFound.Span, "as-found state recorded then"));
    }
}
