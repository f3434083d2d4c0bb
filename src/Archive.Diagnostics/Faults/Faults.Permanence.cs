namespace Archive.Diagnostics;

/// <content>Addresses that must last.</content>
public static partial class Faults
{
    /// <summary>address that would vanish.</summary>
    public static readonly FaultKind AddressVanished = Error("AF1301", "address that would vanish");

    /// <summary>line of the ledger of addresses that is none.</summary>
    public static readonly FaultKind LedgerLine = Error("AF1302", "line of the ledger of addresses that is none");
}
