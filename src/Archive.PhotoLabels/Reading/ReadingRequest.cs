namespace Archive.PhotoLabels.Reading;

/// <summary>Which photos are read.</summary>
/// <param name="Models">Full path of the folder with models and native library.</param>
/// <param name="Photos">Ids of photos; empty for all that show labels.</param>
/// <param name="IsDetailToo">Whether photos with view <c>detail</c> are read as a whole too.</param>
public sealed record ReadingRequest(string Models, IReadOnlyCollection<string> Photos, bool IsDetailToo);
