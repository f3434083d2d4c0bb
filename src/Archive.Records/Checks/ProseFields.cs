using Archive.Records.Model;

namespace Archive.Records.Checks;

/// <summary>Where prose is in the record.</summary>
public static class ProseFields
{
    /// <summary>All prose of a record.</summary>
    public static IEnumerable<Stated<string>> Enumerate(ArchiveRecord record)
    {
        foreach (var prose in Own(record)) yield return prose;
        foreach (var evidence in EvidenceCollector.Collect(record))
        {
            if (evidence.Note is { } note) yield return note;
        }
    }

    /// <summary>All prose of archive.yaml.</summary>
    public static IEnumerable<Stated<string>> Enumerate(ArchiveStatement statement) =>
        Given(EvidenceCollector.Collect(statement).Select(evidence => evidence.Note).Prepend(statement.About));

    /// <summary>The prose of a record, but for what its evidence says.</summary>
    internal static IEnumerable<Stated<string>> Own(ArchiveRecord record)
    {
        if (record.About is { } about) yield return about;
        if (record.Note is { } note) yield return note;
        if (record.Condition is { } condition) yield return condition;
        if (record.Withdrawn is { } withdrawn) yield return withdrawn;
        switch (record)
        {
            case Cable cable:
                if (cable.Reason is { } reason) yield return reason;
                foreach (var end in cable.Ends)
                {
                    if (end.Note is { } ofEnd) yield return ofEnd;
                }

                break;
            case Frame frame:
                foreach (var position in frame.Positions)
                {
                    if (position.Note is { } ofPosition) yield return ofPosition;
                }

                break;
            case Photo photo:
                foreach (var text in Given(photo.Regions
                    .Select(region => region.Note)
                    .Concat(photo.Redact.Select(redaction => redaction.Why))
                    .Prepend(photo.Caption))) yield return text;
                break;
            case Document { Withheld: { } why }:
                yield return why;
                break;
            case Story story:
                yield return story.Body;
                break;
        }
    }

    private static IEnumerable<Stated<string>> Given(IEnumerable<Stated<string>?> prose) =>
        prose.Where(text => text is not null).Select(text => text!.Value);
}
