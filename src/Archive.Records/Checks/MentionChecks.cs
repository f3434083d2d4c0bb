using Archive.Diagnostics;

namespace Archive.Records;

/// <summary>Links in prose lead to records.</summary>
internal static class MentionChecks
{
    public static IEnumerable<Diagnostic> LinksLeadSomewhere(Ground ground)
    {
        var ofStatement = ground.Draft.Statement?.About is { } about ? Judge(ground, null, about) : [];
        var ofRecords = ground.Draft.Records.SelectMany(record => Prose.Own(record).SelectMany(prose => Judge(ground, record, prose)));
        var ofEvidence = ground.Evidence.Where(known => known.Evidence.Note is not null).SelectMany(known => Judge(ground, known.Of, known.Evidence.Note!.Value));
        return ofStatement.Concat(ofRecords).Concat(ofEvidence);
    }

    private static IEnumerable<Diagnostic> Judge(Ground ground, ArchiveRecord? record, Stated<string> prose) =>
        from mention in Mention.In(prose.Span)
        let fault = AddressFault(ground, mention.Name) ?? ReferenceChecks.Judge(ground, record, new Reference(ReferenceRole.Mention, mention.Name))
        where fault is not null
        select fault;

    private static Diagnostic? AddressFault(Ground ground, Stated<string> name) =>
        name.Value.Contains('/', StringComparison.Ordinal) && Address.TryParse(name.Value, out var address) && ground.Record.FrameAt(address) is { } frame
            ? Faults.UnknownReference.At(name.Span, $"`{name.Value}` is an address, and a link in prose names a record", $"write `[[{frame.Id}|{name.Value}]]`")
            : null;
}
