namespace Archive.LabelRecognition.Tests.Models;

/// <summary>The models, as <c>.ci/tools</c> installs them and git has them, in one folder.</summary>
internal static class ModelFolder
{
    internal static string Path { get; } = System.IO.Path.Combine(AppContext.BaseDirectory, "label-models");
}
