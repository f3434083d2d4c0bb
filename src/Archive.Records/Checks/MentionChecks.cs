using Archive.Diagnostics;
using Archive.Diagnostics.Collecting;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Records.Checks;

/// <summary>Links in prose lead to records.</summary>
internal static class MentionChecks
{
    public static IEnumerable<Diagnostic> LinksLeadSomewhere(CheckContext ground)
    {
        var told = new DiagnosticList();
        if (ground.Draft.Statement?.About is { } about) Judge(ground, null, about, told);
        foreach (var record in ground.Draft.Records)
        {
            if (told.IsFull(record.Span.Path)) continue;
            foreach (var prose in ProseFields.Own(record)) Judge(ground, record, prose, told);
        }

        foreach (var (of, evidence) in ground.Evidence)
        {
            if (evidence.Note is { } note) Judge(ground, of, note, told);
        }

        return told.All;
    }

    private static void Judge(CheckContext ground, ArchiveRecord? record, Stated<string> prose, DiagnosticList told)
    {
        foreach (var mention in Mention.In(prose.Span))
        {
            if ((AddressError(ground, mention.Name)
                ?? ReferenceChecks.Judge(ground, record, new Reference(ReferenceRole.Mention, mention.Name))) is { } fault) told.Add(fault);
        }
    }

    private static Diagnostic? AddressError(CheckContext ground, Stated<string> name) =>
        name.Value.Contains('/', StringComparison.Ordinal)
            && Address.TryParse(name.Value, out var address)
            && ground.Record.FrameAt(address) is { } frame
            ? DiagnosticDescriptors.UnknownReference.At(
                name.Span, $"`{name.Value}` is an address, but a link in prose needs a record", $"write `[[{frame.Id}|{name.Value}]]`")
            : null;
}
