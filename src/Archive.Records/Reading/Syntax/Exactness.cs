namespace Archive.Records.Reading.Syntax;

/// <summary>How much each letter of a value counts.</summary>
internal enum Exactness
{
    /// <summary>It is prose, or shows by itself whether it is whole, as a quantity does.</summary>
    Loose,

    /// <summary>An id or address: if it may have been cut short, it is refused.</summary>
    Name,

    /// <summary>Copied from a thing, blanks and signs and all.</summary>
    Copy,
}
