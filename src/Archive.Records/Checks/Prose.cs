namespace Archive.Records;

/// <summary>Where prose stands in the record.</summary>
public static class Prose
{
    /// <summary>All prose of a record.</summary>
    /// <param name="record">A record.</param>
    public static IEnumerable<Stated<string>> Of(ArchiveRecord record) => Own(record).Concat(Given(Evidences.Of(record).Select(evidence => evidence.Note)));

    /// <summary>All prose of archive.yaml.</summary>
    /// <param name="statement">What it says.</param>
    public static IEnumerable<Stated<string>> Of(ArchiveStatement statement) =>
        Given(Evidences.Of(statement).Select(evidence => evidence.Note).Prepend(statement.About));

    /// <summary>The prose of a record, but for what its evidence says.</summary>
    internal static IEnumerable<Stated<string>> Own(ArchiveRecord record) =>
        Given(new[] { record.About, record.Note, record.Condition, record.Withdrawn }.Concat(OfKind(record)));

    private static IEnumerable<Stated<string>?> OfKind(ArchiveRecord record) => record switch
    {
        Cable cable => cable.Ends.Select(end => end.Note).Prepend(cable.Reason),
        Frame frame => frame.Positions.Select(position => position.Note),
        Photo photo => photo.Regions.Select(region => region.Note).Concat(photo.Redact.Select(redaction => redaction.Why)).Prepend(photo.Caption),
        Story story => [story.Body],
        _ => [],
    };

    private static IEnumerable<Stated<string>> Given(IEnumerable<Stated<string>?> prose) => prose.Where(text => text is not null).Select(text => text!.Value);
}
