namespace Archive.LabelRecognition.Models;

/// <summary>Both models, and the library that runs them, from one folder. May be used by many threads at once.</summary>
public sealed class RecognitionModels : IDisposable
{
    /// <summary>Names models and the way they are used: where it changes, readings are made again.</summary>
    public const string Version = "PP-OCRv4 4";

    private RecognitionModels(TextDetector detector, TextRecognizer recognizer) => (Detector, Recognizer) = (detector, recognizer);

    /// <summary>Finds lines.</summary>
    public TextDetector Detector { get; }

    /// <summary>Reads lines.</summary>
    public TextRecognizer Recognizer { get; }

    /// <summary>Whether a folder has the models; whether they can be used shows when they are loaded.</summary>
    /// <param name="folder">Full path.</param>
    public static bool AreIn(string folder) => File.Exists(Path.Combine(folder, ModelFile.Recognition.Name));

    /// <summary>Loads them.</summary>
    /// <param name="folder">Full path of the folder with the models and, unless the runtime finds it by itself, the native library.</param>
    /// <param name="problem">Why there are none: lower case, no full stop.</param>
    public static RecognitionModels? Load(string folder, out string? problem)
    {
        if (!NativeLibraryFile.Use(folder, out problem)) return null;
        NativeMemory.GiveBackLargePieces();
        if (TextDetector.Load(folder, out problem) is not { } detector) return null;
        if (TextRecognizer.Load(folder, out problem) is { } recognizer) return new RecognitionModels(detector, recognizer);
        detector.Dispose();
        return null;
    }

    public void Dispose()
    {
        Detector.Dispose();
        Recognizer.Dispose();
    }
}
