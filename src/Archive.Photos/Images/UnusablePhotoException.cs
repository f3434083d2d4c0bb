namespace Archive.Photos.Images;

/// <summary>Carries an error out of the pipeline to where the photo's outcome is made; never leaves this project.</summary>
internal sealed class UnusablePhotoException(PhotoError fault, string reason) : Exception(reason)
{
    /// <summary>What kind of error it is.</summary>
    public PhotoError Error { get; } = fault;
}
