using System.Reflection;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using Microsoft.ML.OnnxRuntime;

namespace Archive.LabelRecognition.Models;

/// <summary>ONNX Runtime's native library beside the models, as published with the version that this tool is built with.</summary>
internal static class NativeLibraryFile
{
    // Microsoft.ML.OnnxRuntime 1.31.1, its folders `runtimes/*/native`.
    private static readonly (string Platform, string Name, string Sha256)[] Published =
    [
        ("linux-x64", "libonnxruntime.so", "a96f132e5eb5ca04e23a7d2fc1078fb95aa591e8d71d0f237702ece3a1e0f4ea"),
        ("linux-arm64", "libonnxruntime.so", "7e17c55d675be73f67a218dbecb55522395f61dafb3da03ebc7ade56a4c2f813"),
        ("win-x64", "onnxruntime.dll", "cb2fa518b18356617f6f9f460c012501da2819ec7e5c1d80bd8f5de20492db0c"),
        ("osx-arm64", "libonnxruntime.dylib", "2685dc296147c47b0dbd8e0615547b12fc0c445d158d1f374cbd0705d9626fdc"),
    ];

    private static readonly Lock Loading = new();
    private static IntPtr _library;
    private static bool _isResolving;

    /// <summary>Makes the runtime use the library in a folder; the first that is used stays for the life of the process.</summary>
    /// <param name="folder">Full path; where it has no library, the runtime looks for one by itself.</param>
    /// <param name="problem">Why the library cannot be used: lower case, no full stop.</param>
    internal static bool Use(string folder, out string? problem)
    {
        problem = null;
        var files = Published.Where(file => File.Exists(Path.Combine(folder, file.Name))).ToList();
        lock (Loading)
        {
            if (files.Count == 0) return true;
            var path = Path.Combine(folder, files[0].Name);
            try
            {
                using var stream = File.OpenRead(path);
                var checksum = Convert.ToHexStringLower(SHA256.HashData(stream));
                if (!files.Exists(file => file.Sha256 == checksum))
                    problem = $"`{path}` is not the library that belongs to this version";
                else if (_library == IntPtr.Zero && !NativeLibrary.TryLoad(path, out _library))
                    problem = $"`{path}` is not for this platform";
            }
            catch (Exception wrong) when (wrong is IOException or UnauthorizedAccessException)
            {
                problem = $"`{path}` cannot be read";
            }

            if (problem is not null) return false;
            if (!_isResolving) NativeLibrary.SetDllImportResolver(typeof(InferenceSession).Assembly, Resolve);
            return _isResolving = true;
        }
    }

    private static IntPtr Resolve(string name, Assembly assembly, DllImportSearchPath? search) =>
        name.Contains("onnxruntime", StringComparison.Ordinal) ? _library : IntPtr.Zero;
}
