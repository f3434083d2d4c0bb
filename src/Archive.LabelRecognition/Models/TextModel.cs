using System.Buffers;
using Microsoft.ML.OnnxRuntime;

namespace Archive.LabelRecognition.Models;

/// <summary>A model that takes a picture and returns numbers. May be used by many threads at once; each run uses one.</summary>
internal sealed class TextModel : IDisposable
{
    private readonly InferenceSession _session;

    private TextModel(InferenceSession session) => _session = session;

    /// <summary>Loads a model.</summary>
    /// <param name="content">The model, ONNX.</param>
    /// <param name="problem">Why it cannot be loaded: lower case, no full stop.</param>
    internal static TextModel? Load(byte[] content, out string? problem)
    {
        problem = null;
        try
        {
            OrtEnv.Instance().DisableTelemetryEvents();
            using var options = new SessionOptions
            {
                IntraOpNumThreads = 1,
                InterOpNumThreads = 1,
                // An arena keeps what the largest picture needed.
                EnableCpuMemArena = false,
                LogSeverityLevel = OrtLoggingLevel.ORT_LOGGING_LEVEL_ERROR,
            };
            return new TextModel(new InferenceSession(content, options));
        }
        catch (OnnxRuntimeException wrong)
        {
            problem = $"the model cannot be loaded: {wrong.Message}";
        }
        catch (Exception wrong) when (wrong is DllNotFoundException or TypeInitializationException or EntryPointNotFoundException
            or BadImageFormatException)
        {
            problem = "the native library of ONNX Runtime is missing or not for this platform";
        }

        return null;
    }

    /// <summary>Runs it on one picture.</summary>
    /// <param name="fill">Writes three planes, row by row; all is 0 before.</param>
    /// <param name="take">Takes what it needs of the numbers; the second is the length of their last dimension.</param>
    /// <returns>What was taken; null where the library fails.</returns>
    internal T? Run<T>(int width, int height, Action<Span<float>> fill, Func<ReadOnlySpan<float>, int, T?> take)
        where T : class
    {
        // Both are large: new ones for each line or photo would stay until memory is collected.
        var planes = ArrayPool<float>.Shared.Rent(3 * width * height);
        try
        {
            var used = planes.AsMemory(0, 3 * width * height);
            used.Span.Clear();
            fill(used.Span);
            using var input = OrtValue.CreateTensorValueFromMemory(OrtMemoryInfo.DefaultInstance, used, [1, 3, height, width]);
            using var how = new RunOptions();
            using var outputs = _session.Run(how, [_session.InputNames[0]], [input], [_session.OutputNames[0]]);
            return take(outputs[0].GetTensorDataAsSpan<float>(), (int)outputs[0].GetTensorTypeAndShape().Shape[^1]);
        }
        catch (OnnxRuntimeException)
        {
            return null;
        }
        finally
        {
            ArrayPool<float>.Shared.Return(planes);
        }
    }

    public void Dispose() => _session.Dispose();
}
