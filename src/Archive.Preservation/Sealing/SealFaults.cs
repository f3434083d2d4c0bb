using Archive.Diagnostics;

namespace Archive.Preservation;

/// <summary>What can stand in a sealing's way, told of the bag's place.</summary>
internal static class SealFaults
{
    internal static Diagnostic Taken(string target) => Faults.SealTaken.At(
        new SourceText(target, "").Whole, $"{target} is there already, and a bag is never changed", "name another place with --to; bags of one record, a date in each name, are kept side by side");

    internal static Diagnostic NotToBePacked(string target, Diagnostic why) => (why.Kind == Faults.NamesAlike ? Faults.PackedTwice : why.Kind).At(
        new SourceText(target, "").Whole, why.Message, "whoever unpacks the bag on another system would not get all of it: change the name in the record, or seal without --zip");

    internal static Diagnostic Busy(string target) =>
        Faults.SealBusy.At(new SourceText(target, "").Whole, $"another process is sealing into {target}", "wait until it is done");
}
