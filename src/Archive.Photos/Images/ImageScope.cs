using NetVips;

namespace Archive.Photos.Images;

/// <summary>Holds every picture of one piece of work and lets go of all at its end: native memory is invisible to the collector.</summary>
internal sealed class ImageScope : IDisposable
{
    private readonly Stack<Image> _laid = new();

    /// <summary>Takes a picture into care.</summary>
    /// <returns>The same picture.</returns>
    public Image Track(Image image)
    {
        _laid.Push(image);
        return image;
    }

    public void Dispose()
    {
        while (_laid.TryPop(out var image)) image.Dispose();
    }
}
