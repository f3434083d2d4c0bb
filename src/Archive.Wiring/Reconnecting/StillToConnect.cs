using Archive.Wiring.Safety;

namespace Archive.Wiring.Reconnecting;

/// <summary>Cables of a list that are still to be connected: those that a cable of a later role waits for.</summary>
/// <param name="All">Ids of all of them.</param>
/// <param name="BeforeFeeders">Ids of those that go on before feeders.</param>
/// <param name="BeforeOutside">Ids of those that go on before outside lines.</param>
internal sealed record StillToConnect(List<string> All, List<string> BeforeFeeders, List<string> BeforeOutside)
{
    /// <param name="left">The cables, in order.</param>
    public static StillToConnect From(IEnumerable<RefittedCable> left)
    {
        var all = left.ToList();
        return new StillToConnect(
            [.. all.Select(laid => laid.Cable.Id)],
            [.. all.Where(laid => !OrderRules.FeedersLast.Roles.Contains(laid.Role)).Select(laid => laid.Cable.Id)],
            [.. all.Where(laid => !OrderRules.OutsideLast.Roles.Contains(laid.Role)).Select(laid => laid.Cable.Id)]);
    }

    /// <summary>What a cable of a role waits for.</summary>
    public List<string> Before(CableRole role) => OrderRules.OutsideLast.Roles.Contains(role) ? BeforeOutside
        : OrderRules.FeedersLast.Roles.Contains(role) ? BeforeFeeders
        : [];
}
