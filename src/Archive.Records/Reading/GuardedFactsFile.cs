namespace Archive.Records.Reading;

/// <summary>
/// <c>guarded.txt</c> beside <c>archive.yaml</c>: facts that may not change without a note. Read where changes are judged; here it is only
/// known to be at home.
/// </summary>
public static class GuardedFactsFile
{
    /// <summary>Its name at the archive's top.</summary>
    public const string Name = "guarded.txt";
}
