using Archive.Photos.Images;
using Archive.Publishing.Requests;

namespace Archive.Publishing.Building;

/// <summary>Reports the steps of a build from what its parts report.</summary>
internal static class StepProgress
{
    /// <summary>Photos that are done.</summary>
    internal static IProgress<PhotoProgress>? Photos(IProgress<BuildProgress>? progress, BuildStep step) =>
        progress is null ? null : new Relay<PhotoProgress>(photos => progress.Report(new BuildProgress(step, photos.Done, photos.Total)));

    /// <summary>Files that are made.</summary>
    internal static IProgress<int>? Files(IProgress<BuildProgress>? progress) =>
        progress is null ? null : new Relay<int>(made => progress.Report(new BuildProgress(BuildStep.Make, made, 0)));

    // Reported at once and on the same thread, where System.Progress would queue.
    private sealed class Relay<T>(Action<T> report) : IProgress<T>
    {
        public void Report(T value) => report(value);
    }
}
