using Archive.Diagnostics;

namespace Archive.Records;

/// <summary>Links in prose lead to records.</summary>
internal static class MentionChecks
{
    public static IEnumerable<Diagnostic> LinksLeadSomewhere(Ground ground)
    {
        var ofStatement = ground.Draft.Statement is { } statement
            ? Prose.Of(statement).SelectMany(prose => Judge(ground, null, prose))
            : [];
        return ofStatement.Concat(ground.Draft.Records.SelectMany(record => Prose.Of(record).SelectMany(prose => Judge(ground, record, prose))));
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
