using Archive.LabelRecognition.Models;

namespace Archive.Cli.Options;

/// <summary>Finds the folder with the models that read labels, which is a package of its own.</summary>
internal static class LabelReadingFolder
{
    private const string Name = "label-reading";

    /// <summary>What to do where it is missing.</summary>
    internal const string HowToGet =
        "unpack the package asfound-label-reading of your platform and version beside asfound, or name its folder with --models";

    /// <summary>Finds it.</summary>
    /// <param name="typed">The folder as typed; null to look in the usual places.</param>
    /// <param name="problem">Why there is none, and what to do.</param>
    /// <returns>Full path.</returns>
    internal static string? Find(string? typed, out (string What, string Help) problem)
    {
        problem = default;
        if (typed is not null)
        {
            var full = Path.GetFullPath(typed);
            // The package's own folder does, and the one that it was unpacked in.
            if (((string[])[full, Path.Combine(full, Name)]).FirstOrDefault(RecognitionModels.AreIn) is { } named) return named;
            problem = ($"there are no models to read labels with in {typed}", HowToGet);
            return null;
        }

        if (Usual.FirstOrDefault(RecognitionModels.AreIn) is { } found) return found;
        problem = ("the models to read labels with are not installed; everything else works without them", HowToGet);
        return null;
    }

    private static IEnumerable<string> Usual
    {
        get
        {
            yield return Path.Combine(AppContext.BaseDirectory, Name);
            var own = Environment.GetFolderPath(
                Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify);
            // Someone without a home has no such folder; one below the working folder is not meant.
            if (Path.IsPathRooted(own)) yield return Path.Combine(own, "asfound", Name);
        }
    }
}
