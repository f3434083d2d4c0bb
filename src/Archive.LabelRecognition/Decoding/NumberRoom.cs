using System.Collections.Concurrent;

namespace Archive.LabelRecognition.Decoding;

/// <summary>
/// Large arrays that are used again: as many as there are threads at work, each as long as the longest that was asked for.
/// </summary>
/// <remarks>The shared pool of .NET rounds lengths up to powers of two, and keeps an array of each for each thread.</remarks>
internal static class NumberRoom
{
    private static readonly ConcurrentBag<double[]> Free = [];

    /// <summary>Numbers from before are in it.</summary>
    internal static double[] Take(int length) =>
        Free.TryTake(out var room) && room.Length >= length ? room : GC.AllocateUninitializedArray<double>(length);

    internal static void GiveBack(double[] room) => Free.Add(room);
}
