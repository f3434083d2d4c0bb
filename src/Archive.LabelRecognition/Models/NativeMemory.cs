using System.Runtime.InteropServices;

namespace Archive.LabelRecognition.Models;

/// <summary>The memory of native libraries.</summary>
internal static class NativeMemory
{
    // malloc.h of glibc.
    private const int TrimThreshold = -1;
    private const int MapThreshold = -3;

    // Bytes. What a model needs for a large picture is a hundred times more.
    private const int Large = 1 << 20;

    /// <summary>
    /// Gives large pieces back to the system as soon as nothing uses them. By itself glibc keeps larger and larger ones, up to 32 MB each,
    /// and a model takes many and gives many up. Other libraries have no such function, and nothing happens.
    /// </summary>
    internal static void GiveBackLargePieces()
    {
        if (!OperatingSystem.IsLinux()) return;
        try
        {
            _ = mallopt(MapThreshold, Large);
            _ = mallopt(TrimThreshold, Large);
        }
        catch (Exception missing) when (missing is DllNotFoundException or EntryPointNotFoundException)
        {
            // Not glibc.
        }
    }

    [DllImport("libc", ExactSpelling = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int mallopt(int parameter, int value);
}
