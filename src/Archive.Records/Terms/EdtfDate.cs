namespace Archive.Records;

/// <summary>A date as the record states it: Extended Date/Time Format (ISO 8601-2), levels 0 and 1.</summary>
/// <param name="Text">As written.</param>
/// <param name="Earliest">First day it may mean; null for an open or unknown start, or a year outside 1 to 9999.</param>
/// <param name="Latest">Last day it may mean; null for an open or unknown end, or a year outside 1 to 9999.</param>
/// <param name="Level">0 or 1.</param>
public sealed partial record EdtfDate(string Text, DateOnly? Earliest, DateOnly? Latest, int Level)
{
    /// <inheritdoc/>
    public override string ToString() => Text;
}
