using Archive.Wiring.Progress;
using Archive.Wiring.Safety;

namespace Archive.Wiring.Reconnecting;

/// <summary>
/// Cables of a list that are still to be connected, and for which others wait; null where none are. They are the same for all that wait.
/// </summary>
/// <param name="All">All of them.</param>
/// <param name="BeforeFeeders">Those that go on before feeders.</param>
/// <param name="BeforeOutside">Those that go on before outside lines.</param>
internal sealed record StillToConnect(Precondition? All, Precondition? BeforeFeeders, Precondition? BeforeOutside)
{
    /// <param name="left">The cables, in order.</param>
    public static StillToConnect From(IEnumerable<RefittedCable> left)
    {
        var all = left.ToList();
        return new StillToConnect(
            Waiting(all),
            Waiting(all.Where(laid => !OrderRules.FeedersLast.Roles.Contains(laid.Role))),
            Waiting(all.Where(laid => !OrderRules.OutsideLast.Roles.Contains(laid.Role))));

        static Precondition? Waiting(IEnumerable<RefittedCable> cables)
        {
            List<string> ids = [.. cables.Select(laid => laid.Cable.Id)];
            return ids.Count > 0 ? Precondition.About(PreconditionKind.OthersOn, ids) : null;
        }
    }

    /// <summary>What a cable of a role waits for; null if for none.</summary>
    public Precondition? Before(CableRole role) => OrderRules.OutsideLast.Roles.Contains(role) ? BeforeOutside
        : OrderRules.FeedersLast.Roles.Contains(role) ? BeforeFeeders
        : null;
}
