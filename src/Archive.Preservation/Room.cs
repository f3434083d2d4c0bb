namespace Archive.Preservation;

/// <summary>
/// What outlives its makers. <c>Fixity/</c> reads a file once and takes every digest of it; <c>Bags/</c> reads a bag (RFC 8493) as its standard says;
/// <c>Audits/</c> hold a bag, a published site or an archive's photos against the checksums that were written down for them;
/// <c>Sealing/</c> makes a bag of a record, its originals and its site. <c>Comparing/</c> holds two states
/// of a record against each other, fact by fact; <c>Permanence/</c> keeps the ledger of addresses. <c>Git/</c> asks git; <c>Format/</c> is what travels in every bag.
/// </summary>
/// <remarks>
/// Invariant: nothing that is audited or sealed is ever changed or followed out of its folder, no address is ever fetched, a finished bag is never touched again; a file is streamed, never held whole
/// in memory (lists of checksums are).
/// </remarks>
public static class Room;
