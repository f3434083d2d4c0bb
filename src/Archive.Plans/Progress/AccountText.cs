using Archive.Wiring.Progress;

namespace Archive.Plans.Progress;

/// <summary>What the ways of being accounted for are called.</summary>
public static class AccountText
{
    /// <summary>At the head of a column: lower case.</summary>
    public static string Name(Account account) => account switch
    {
        Account.Found => "where found",
        Account.TakenOut => "taken out",
        Account.ToBeFound => "to be found",
        Account.PutBack => "put back",
        _ => account.ToString().ToLowerInvariant(),
    };

    /// <summary>What it means.</summary>
    public static string Means(Account account) => account switch
    {
        Account.Found => "where it was found, or not moved since",
        Account.TakenOut => "taken out, and neither packed nor loaded",
        Account.Packed => "in a box that has not left",
        Account.Loaded => "loaded, itself or its box, and not seen at any place since",
        Account.Arrived => "arrived; if it is in a box, that box has not been opened since and answers for it",
        Account.ToBeFound => "its box arrived and was opened, and no event says that it came out",
        Account.Unpacked => "out of its box, and not back in its place",
        Account.PutBack => "back in its place: set up, laid, connected, or in its slot",
        _ => "looked for and not found",
    };
}
