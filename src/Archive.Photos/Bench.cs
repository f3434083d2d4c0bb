using NetVips;

namespace Archive.Photos;

/// <summary>Holds every picture of one piece of work and lets go of all at its end: native memory is invisible to the collector.</summary>
internal sealed class Bench : IDisposable
{
    private readonly Stack<Image> _laid = new();

    /// <summary>Takes a picture into care.</summary>
    /// <returns>The same picture.</returns>
    public Image Lay(Image image)
    {
        _laid.Push(image);
        return image;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        while (_laid.TryPop(out var image)) image.Dispose();
    }
}
