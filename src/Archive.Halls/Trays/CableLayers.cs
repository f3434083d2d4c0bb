using Archive.Records.Model;

namespace Archive.Halls.Trays;

/// <summary>Which cable of a tray lies in which layer.</summary>
internal static class CableLayers
{
    /// <summary>
    /// A cable's layer is one above the highest that it lies over, among these cables. Those that lie over each other in a circle, and
    /// what lies over them, share the layer on top. Kahn's topological sort; linear in cables and in what they lie over.
    /// </summary>
    internal static IReadOnlyDictionary<Cable, int> Compute(IReadOnlyCollection<Cable> cables, Func<Cable, IEnumerable<Cable>> liesOver)
    {
        var layer = cables.ToDictionary(cable => cable, _ => 0, ReferenceComparer);
        var waitsFor = cables.ToDictionary(cable => cable, _ => 0, ReferenceComparer);
        var above = cables.ToDictionary(cable => cable, _ => new List<Cable>(), ReferenceComparer);
        foreach (var cable in cables)
        {
            foreach (var under in liesOver(cable).Where(waitsFor.ContainsKey))
            {
                above[under].Add(cable);
                waitsFor[cable]++;
            }
        }

        var free = new Queue<Cable>(cables.Where(cable => waitsFor[cable] == 0));
        var top = 0;
        while (free.TryDequeue(out var cable))
        {
            top = Math.Max(top, layer[cable] + 1);
            foreach (var over in above[cable])
            {
                layer[over] = Math.Max(layer[over], layer[cable] + 1);
                if (--waitsFor[over] == 0) free.Enqueue(over);
            }
        }

        foreach (var knotted in cables.Where(cable => waitsFor[cable] > 0)) layer[knotted] = top;
        return layer;
    }

    // Cables are records: comparing them by value would walk through all they hold.
    private static IEqualityComparer<Cable> ReferenceComparer { get; } =
        EqualityComparer<Cable>.Create(static (a, b) => ReferenceEquals(a, b), System.Runtime.CompilerServices.RuntimeHelpers.GetHashCode);
}
