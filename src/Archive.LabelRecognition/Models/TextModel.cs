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
    /// <param name="planes">Three planes, row by row.</param>
    /// <returns>The numbers, and the length of their last dimension; null where the library fails.</returns>
    internal (float[] Numbers, int LastDimension)? Run(float[] planes, int width, int height)
    {
        try
        {
            using var input = OrtValue.CreateTensorValueFromMemory(planes, [1, 3, height, width]);
            using var how = new RunOptions();
            using var outputs = _session.Run(how, [_session.InputNames[0]], [input], [_session.OutputNames[0]]);
            return (outputs[0].GetTensorDataAsSpan<float>().ToArray(), (int)outputs[0].GetTensorTypeAndShape().Shape[^1]);
        }
        catch (OnnxRuntimeException)
        {
            return null;
        }
    }

    public void Dispose() => _session.Dispose();
}
