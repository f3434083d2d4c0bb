namespace Archive.Records.Reading;

/// <summary>
/// <c>rejected.yaml</c> beside <c>archive.yaml</c>: what was proposed and rejected, so that it is not proposed again. Read where facts are
/// proposed and by the check; here it is only known to be at home.
/// </summary>
public static class RejectedFactsFile
{
    /// <summary>Its name at the archive's top.</summary>
    public const string Name = "rejected.yaml";
}
