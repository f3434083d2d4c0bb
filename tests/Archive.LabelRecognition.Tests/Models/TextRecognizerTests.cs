using System.Runtime.Loader;
using Archive.LabelRecognition.Decoding;
using Archive.LabelRecognition.Models;
using Archive.LabelRecognition.Pictures;
using Archive.LabelRecognition.Readings;
using Archive.LabelRecognition.Tests.Generated;
using Archive.LabelRecognition.Tests.Grammars;
using Xunit;

namespace Archive.LabelRecognition.Tests.Models;

public sealed class TextRecognizerTests : IDisposable
{
    private readonly TextRecognizer _recognizer = TextRecognizer.Load(ModelFolder.Path, out _)!;

    // Light on dark, since a raised letter is; without wear.
    private readonly LabelPicture _drawn = LabelPicture.Draw(
        LabelFamily.Letters, Typeface.Judged[2], Wear.Mild with { Noise = 1, Lost = 0, Misplaced = 0 }, 3);

    public void Dispose() => _recognizer.Dispose();

    [Theory]
    [InlineData(false, false)]
    [InlineData(true, false)]
    [InlineData(false, true)]
    [InlineData(true, true)]
    public void A_line_is_read_whichever_way_up_and_whichever_is_darker(bool isTurned, bool isInverted)
    {
        var automaton = LabelGrammarTests.Compiled(_drawn.Family.Pattern);
        var decoder = new CtcDecoder(automaton, GlyphWeights.From(automaton.Glyphs, _recognizer.Classes, _drawn.Family.Confusions));
        var reader = new LabelReader(_recognizer, [new ReadableScheme("letters", decoder)], new ReadingTemperatures(1, 1));
        var image = isInverted
            ? new RgbImage(_drawn.Image.Width, _drawn.Image.Height, Array.ConvertAll(_drawn.Image.Pixels, value => (byte)(255 - value)))
            : _drawn.Image;
        var read = reader.Read(image, isTurned ? _drawn.Box.Turned() : _drawn.Box, 3)!;
        Assert.Equal(_drawn.Label, read.Best[0].Label);
        Assert.Equal("letters", read.Best[0].Scheme);
        Assert.Equal(isTurned, read.View.IsTurned);
        Assert.InRange(read.Best[0].Probability, 0.9, 1);
        Assert.True(read.Best.Sum(reading => reading.Probability) <= 1 + 1e-9);
    }

    [Fact]
    public void A_line_is_the_label_of_the_scheme_that_it_fits()
    {
        var schemes = LabelFamily.All.Select(family =>
        {
            var automaton = LabelGrammarTests.Compiled(family.Pattern);
            return new ReadableScheme(family.Name, new CtcDecoder(automaton, GlyphWeights.From(automaton.Glyphs, _recognizer.Classes)));
        });
        var read = new LabelReader(_recognizer, [.. schemes], new ReadingTemperatures(1, 1)).Read(_drawn.Image, _drawn.Box, 4)!;
        Assert.Equal((_drawn.Family.Name, _drawn.Label), (read.Best[0].Scheme, read.Best[0].Label));
        Assert.Equal(read.Best.OrderByDescending(reading => reading.Probability), read.Best);
    }

    [Fact]
    public void Frames_are_probabilities()
    {
        var frames = _recognizer.Recognize(_drawn.Image, _drawn.Box)!;
        Assert.Equal(_recognizer.Classes.Length, frames.ClassCount);
        for (var frame = 0; frame < frames.Count; frame++) Assert.Equal(1, frames[frame].ToArray().Sum(), 3);
    }

    [Fact]
    public void Without_models_it_says_what_is_missing()
    {
        using var folder = new TemporaryFolder();
        Assert.Null(TextRecognizer.Load(folder.Root, out var problem));
        Assert.Equal($"model file `{Path.Combine(folder.Root, "label-characters.txt")}` cannot be read", problem);
    }

    [Fact]
    public void A_model_that_was_changed_is_not_loaded()
    {
        using var folder = new TemporaryFolder();
        File.Copy(Path.Combine(ModelFolder.Path, "label-characters.txt"), Path.Combine(folder.Root, "label-characters.txt"));
        var changed = File.ReadAllBytes(Path.Combine(ModelFolder.Path, "label-recognition.onnx"));
        changed[^1] ^= 1;
        var path = Path.Combine(folder.Root, "label-recognition.onnx");
        File.WriteAllBytes(path, changed);
        Assert.Null(TextRecognizer.Load(folder.Root, out var problem));
        Assert.Equal($"model file `{path}` is not the one published", problem);
    }

    [Fact]
    public void Without_the_native_library_it_says_so()
    {
        // The same code, loaded again where no native library is found.
        var context = new WithoutNativeLibraries();
        try
        {
            var type = context.LoadFromAssemblyPath(typeof(TextRecognizer).Assembly.Location).GetType(typeof(TextRecognizer).FullName!)!;
            object?[] arguments = [ModelFolder.Path, null];
            Assert.Null(type.GetMethod(nameof(TextRecognizer.Load))!.Invoke(null, arguments));
            Assert.Equal("the native library of ONNX Runtime is missing or not for this platform", arguments[1]);
        }
        finally
        {
            context.Unload();
        }
    }

    private sealed class WithoutNativeLibraries() : AssemblyLoadContext(null, isCollectible: true)
    {
        protected override System.Reflection.Assembly? Load(System.Reflection.AssemblyName assemblyName) =>
            assemblyName.Name == "Microsoft.ML.OnnxRuntime"
                ? LoadFromAssemblyPath(Path.Combine(AppContext.BaseDirectory, "Microsoft.ML.OnnxRuntime.dll"))
                : null;

        protected override nint LoadUnmanagedDll(string unmanagedDllName) => throw new DllNotFoundException(unmanagedDllName);
    }
}
