using Archive.Diagnostics;
using Archive.Diagnostics.Collecting;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Records.Checks;

/// <summary>Links in prose lead to records.</summary>
internal static class MentionChecks
{
    public static IEnumerable<Diagnostic> LinksLeadSomewhere(CheckContext context)
    {
        var told = new DiagnosticList();
        if (context.Draft.Statement?.About is { } about) Judge(context, null, about, told);
        foreach (var record in context.Draft.Records)
        {
            if (told.IsFull(record.Span.Path)) continue;
            foreach (var prose in ProseFields.Own(record)) Judge(context, record, prose, told);
        }

        foreach (var (of, evidence) in context.Evidence)
        {
            if (evidence.Note is { } note) Judge(context, of, note, told);
        }

        return told.All;
    }

    private static void Judge(CheckContext context, ArchiveRecord? record, Stated<string> prose, DiagnosticList told)
    {
        foreach (var mention in Mention.In(prose.Span))
        {
            if ((AddressError(context, mention.Name)
                ?? ReferenceChecks.Judge(context, record, new Reference(ReferenceRole.Mention, mention.Name))) is { } diagnostic)
                told.Add(diagnostic);
        }
    }

    private static Diagnostic? AddressError(CheckContext context, Stated<string> name) =>
        name.Value.Contains('/', StringComparison.Ordinal)
            && Address.TryParse(name.Value, out var address)
            && context.Record.FrameAt(address) is { } frame
            ? DiagnosticDescriptors.UnknownReference.At(
                name.Span, $"`{name.Value}` is an address, but a link in prose needs a record", $"write `[[{frame.Id}|{name.Value}]]`")
            : null;
}
