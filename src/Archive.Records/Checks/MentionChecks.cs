using Archive.Diagnostics;

namespace Archive.Records;

/// <summary>Links in prose lead to records.</summary>
internal static class MentionChecks
{
    public static IEnumerable<Diagnostic> LinksLeadSomewhere(Ground ground)
    {
        var told = new DiagnosticList();
        if (ground.Draft.Statement?.About is { } about) Judge(ground, null, about, told);
        foreach (var record in ground.Draft.Records)
        {
            foreach (var prose in Prose.Own(record)) Judge(ground, record, prose, told);
        }

        foreach (var (of, evidence) in ground.Evidence)
        {
            if (evidence.Note is { } note) Judge(ground, of, note, told);
        }

        return told.All;
    }

    private static void Judge(Ground ground, ArchiveRecord? record, Stated<string> prose, DiagnosticList told)
    {
        foreach (var mention in Mention.In(prose.Span))
        {
            if ((AddressFault(ground, mention.Name) ?? ReferenceChecks.Judge(ground, record, new Reference(ReferenceRole.Mention, mention.Name))) is { } fault) told.Add(fault);
        }
    }

    private static Diagnostic? AddressFault(Ground ground, Stated<string> name) =>
        name.Value.Contains('/', StringComparison.Ordinal) && Address.TryParse(name.Value, out var address) && ground.Record.FrameAt(address) is { } frame
            ? Faults.UnknownReference.At(name.Span, $"`{name.Value}` is an address, but a link in prose needs a record", $"write `[[{frame.Id}|{name.Value}]]`")
            : null;
}
