using System.Globalization;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Records.Checks;

/// <summary>AF1503 and AF1504: what is recorded has happened, and was recorded as found before it was moved.</summary>
/// <remarks>
/// Linear in the record. Only what is certain is reported: a date that may also mean a possible day is left alone.
/// </remarks>
internal static class DateChecks
{
    /// <summary>No date lies in the future.</summary>
    /// <param name="today">The day on which this is asked; somewhere on earth it is a day later already.</param>
    public static IEnumerable<Diagnostic> AreNotInTheFuture(CheckContext context, DateOnly today)
    {
        var last = today.AddDays(1);
        var dates = context.Draft.Records.SelectMany(Own)
            .Concat(context.Evidence.Select(known => known.Evidence.On))
            .Prepend(context.Draft.Statement?.AsFound);
        foreach (var stated in dates)
        {
            if (stated is not { Value: { Earliest: { } day } date, Span: var span } || day <= last) continue;
            yield return DiagnosticDescriptors.FutureDate.At(
                span,
                $"`{date.Text}` is in the future: today is {today.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}",
                $"check the year; what is only planned is no event; {AcceptedWarnings.Help(DiagnosticDescriptors.FutureDate)}");
        }
    }

    /// <summary>A frame is recorded as found while the state as found is recorded, and before it is moved.</summary>
    public static IEnumerable<Diagnostic> AreFoundInTime(CheckContext context)
    {
        var began = context.Draft.Statement?.AsFound;
        var moved = FirstMoves(context);
        foreach (var frame in context.Draft.Records.OfType<Frame>().Where(context.IsPresent))
        {
            if (frame.Found?.On is not { } found) continue;
            if (found.Value.Latest < began?.Value.Earliest)
            {
                yield return DiagnosticDescriptors.FoundTooLate.At(
                    found.Span,
                    $"frame `{frame.Id}` was recorded on {found.Value.Text}, before the days on which the state as found was recorded",
                    $"check both dates; {AcceptedWarnings.Help(DiagnosticDescriptors.FoundTooLate)}",
                    new Related(began!.Value.Span, "the state as found was recorded then"));
            }
            else if (moved.GetValueOrDefault(frame.Id) is { On: { } on } move && found.Value.Earliest > on.Value.Latest)
            {
                yield return DiagnosticDescriptors.FoundTooLate.At(
                    found.Span,
                    $"frame `{frame.Id}` was recorded as found on {found.Value.Text}, after event `{move.Id}` had moved it",
                    $"check both dates; {AcceptedWarnings.Help(DiagnosticDescriptors.FoundTooLate)}",
                    new Related(on.Span, "it was moved then"));
            }
        }
    }

    private static IEnumerable<Stated<EdtfDate>?> Own(ArchiveRecord record) => record switch
    {
        ArchiveEvent happened => [happened.On],
        Photo photo => [photo.Taken],
        Document document => [document.Date],
        Frame frame => [frame.Found?.On],
        Cable cable => [cable.Permission?.On],
        _ => [],
    };

    // Of each thing the event that certainly moved it first.
    private static Dictionary<string, ArchiveEvent> FirstMoves(CheckContext context)
    {
        var first = new Dictionary<string, ArchiveEvent>(StringComparer.Ordinal);
        foreach (var happened in context.Draft.Records.OfType<ArchiveEvent>())
        {
            if (happened.IsWithdrawn || happened.What?.Value is not (EventType.Loaded or EventType.Arrived)) continue;
            if (happened.On?.Value.Latest is not { } day) continue;
            foreach (var of in happened.Of)
            {
                var id = context.Resolve(of.Value);
                if (!first.TryGetValue(id, out var earlier) || day < earlier.On!.Value.Value.Latest) first[id] = happened;
            }
        }

        return first;
    }
}
