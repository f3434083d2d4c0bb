namespace Archive.Diagnostics.Descriptors;

/// <content>Addresses that must last.</content>
public static partial class DiagnosticDescriptors
{
    public static readonly DiagnosticDescriptor AddressVanished = Error("AF1301", "address that would stop working");

    public static readonly DiagnosticDescriptor LedgerLine = Error("AF1302", "line of addresses.txt that is not an address");
}
