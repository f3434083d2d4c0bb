using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;

namespace Archive.Preservation.Sealing;

/// <summary>What can stand in a sealing's way, reported of the bag's place.</summary>
internal static class SealDiagnostics
{
    internal static Diagnostic Taken(string target) => DiagnosticDescriptors.SealTaken.At(
        new SourceText(target, "").Whole,
        $"{target} already exists, and a bag is never changed",
        "name another place with --to; keep bags of one record side by side, with the date in each name");

    internal static Diagnostic NotToBePacked(string target, Diagnostic why) =>
        (why.Descriptor == DiagnosticDescriptors.NamesAlike ? DiagnosticDescriptors.PackedTwice : why.Descriptor).At(
            new SourceText(target, "").Whole,
            why.Message,
            "unpacked on another system, the bag would be incomplete: change the name in the record, or seal without --zip");

    internal static Diagnostic Busy(string target) =>
        DiagnosticDescriptors.SealBusy.At(
            new SourceText(target, "").Whole, $"another process is sealing into {target}", "wait until it has finished");
}
