using CsCheck;

namespace Archive.LabelRecognition.Tests;

internal static class TextGen
{
    internal static Gen<string> Pick(params string[] texts) => Gen.Int[0, texts.Length - 1].Select(at => texts[at]);

    internal static Gen<string> Of(string letters, int least, int most) =>
        Gen.Int[0, letters.Length - 1].Array[least, most].Select(places => string.Concat(places.Select(at => letters[at])));
}
