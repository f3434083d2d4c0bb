using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;

namespace Archive.Records.Checks;

/// <summary>A list of references names each record once. A cable may come back to a tray, but not from that tray itself.</summary>
internal static class ListChecks
{
    public static IEnumerable<Diagnostic> NameEachOnce(CheckContext context) =>
        context.Draft.Records.SelectMany(record => record switch
        {
            Cable { LiesOver.Length: < 2, LiesIn.Length: < 2 } => [],
            Cable cable => Repeated(context, ReferenceRole.LiesOver, cable.LiesOver).Concat(RepeatedInSequence(context, cable.LiesIn)),
            Frame frame => Repeated(context, frame.Needs),
            Display display => Repeated(context, display.Needs),
            Photo photo => photo.Regions
                .Select(region => region.Shows)
                .Prepend(photo.Shows)
                .SelectMany(shows => Repeated(context, ReferenceRole.Shows, shows)),
            ArchiveEvent archiveEvent =>
                Repeated(context, ReferenceRole.EventOf, archiveEvent.Of)
                    .Concat(RepeatedEnds(archiveEvent.Ends))
                    .Concat(People(archiveEvent.By)),
            _ => [],
        });

    private static IEnumerable<Diagnostic> Repeated(CheckContext context, ImmutableArray<Need> needs) =>
        Repeated(context, ReferenceRole.Needs, [.. needs.OfType<FrameNeed>().Select(need => need.Frame)])
            .Concat(needs.OfType<AnyNeed>().SelectMany(any => Repeated(context, any.Of)));

    private static IEnumerable<Diagnostic> Repeated(CheckContext context, ReferenceRole role, ImmutableArray<Stated<string>> names)
    {
        if (names.Length < 2 || (names.Length == 2 && context.Resolve(names[0].Value) != context.Resolve(names[1].Value))) yield break;
        var first = new Dictionary<string, Stated<string>>(names.Length, StringComparer.Ordinal);
        foreach (var name in names)
        {
            if (!first.TryAdd(context.Resolve(name.Value), name)) yield return Report(role.Key, name, first[context.Resolve(name.Value)]);
        }
    }

    private static IEnumerable<Diagnostic> People(ImmutableArray<Stated<string>> by) =>
        by.Length < 2 ? [] : by.GroupBy(person => person.Value, StringComparer.Ordinal)
            .SelectMany(named => named.Skip(1).Select(again => Report("by", again, named.First())));

    private static IEnumerable<Diagnostic> RepeatedEnds(ImmutableArray<EventEnd> ends) =>
        ends.Length < 2 ? [] : ends.GroupBy(end => end.Text, StringComparer.Ordinal).SelectMany(named => named.Skip(1).Select(again =>
            Report("of", new Stated<string>(again.Text, again.At.Span), new Stated<string>(again.Text, named.First().At.Span))));

    private static IEnumerable<Diagnostic> RepeatedInSequence(CheckContext context, ImmutableArray<Stated<string>> trays)
    {
        for (var i = 1; i < trays.Length; i++)
        {
            if (trays[i].Value == trays[i - 1].Value || context.Resolve(trays[i].Value) == context.Resolve(trays[i - 1].Value))
                yield return Report(ReferenceRole.LiesIn.Key, trays[i], trays[i - 1]);
        }
    }

    private static Diagnostic Report(string key, Stated<string> name, Stated<string> first) => DiagnosticDescriptors.ListedTwice.At(
        name.Span,
        name.Value == first.Value
            ? $"`{name.Value}` is listed twice in `{key}`"
            : $"`{name.Value}` and `{first.Value}` are the same record, listed twice in `{key}`",
        "remove one of them, or write the record that was meant",
        new Related(first.Span, "first listed here"));
}
