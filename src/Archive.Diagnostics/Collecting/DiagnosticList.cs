using System.Collections.Immutable;
using System.Runtime.InteropServices;
using Archive.Diagnostics.Descriptors;

namespace Archive.Diagnostics.Collecting;

/// <summary>
/// Diagnostics as they are found, up to a limit: of each file so many errors and so many warnings are kept, and one more that says that
/// others are left out. A file made of errors fills neither the memory nor the terminal, whichever check finds them.
/// </summary>
/// <remarks>Anyone who runs checks collects what they find here; the checks themselves know no limit. Not thread-safe.</remarks>
public sealed class DiagnosticList
{
    /// <summary>Errors, and apart from them warnings and notes, that are kept of one file.</summary>
    public const int MostPerFile = 10_000;

    private readonly ImmutableArray<Diagnostic>.Builder _kept = ImmutableArray.CreateBuilder<Diagnostic>();
    private readonly Dictionary<string, Tally> _files = new(StringComparer.Ordinal);

    /// <summary>How many are kept.</summary>
    public int Count => _kept.Count;

    /// <summary>All that are kept, in the order in which they were added.</summary>
    public ImmutableArray<Diagnostic> All => _kept.ToImmutable();

    /// <summary>Collects diagnostics in <see cref="Diagnostic.Order"/>.</summary>
    /// <param name="found">What checks find, in any order; of a file with more than the limit those that come first are kept.</param>
    public static ImmutableArray<Diagnostic> Collect(IEnumerable<Diagnostic> found)
    {
        var list = new DiagnosticList();
        foreach (var diagnostic in found) list.Add(diagnostic);
        return [.. list._kept.Order(Diagnostic.Order)];
    }

    /// <summary>Whether a diagnostic only says that others of its file are left out.</summary>
    public static bool IsLimit(Diagnostic diagnostic) =>
        diagnostic.Descriptor == DiagnosticDescriptors.TooManyFaults || diagnostic.Descriptor == DiagnosticDescriptors.TooManyWarnings;

    /// <summary>Whether errors of a file are left out already.</summary>
    public bool IsFull(string path) => _files.TryGetValue(path, out var tally) && tally.IsToldOfErrors;

    /// <summary>Adds one, unless its file has too many.</summary>
    /// <param name="diagnostic">What was found.</param>
    public void Add(Diagnostic diagnostic)
    {
        ref var tally = ref CollectionsMarshal.GetValueRefOrAddDefault(_files, diagnostic.Span.Path, out _);
        var isError = diagnostic.Severity == Severity.Error;
        ref var isToldOfMore = ref isError ? ref tally.IsToldOfErrors : ref tally.IsToldOfWarnings;
        ref var count = ref isError ? ref tally.Errors : ref tally.Warnings;

        // A list that was collected before may say so already.
        var isLimit = IsLimit(diagnostic);
        if (!isLimit && count < MostPerFile)
        {
            count++;
            _kept.Add(diagnostic);
        }
        else if (!isToldOfMore)
        {
            isToldOfMore = true;
            _kept.Add(isLimit ? diagnostic : LeftOut(diagnostic, isError));
        }
    }

    private static Diagnostic LeftOut(Diagnostic first, bool isError) => isError
        ? DiagnosticDescriptors.TooManyFaults.At(
            first.Span,
            $"this file has more than {MostPerFile} errors; this one and others are not reported",
            "fix the first ones, then check again")
        : DiagnosticDescriptors.TooManyWarnings.At(
            first.Span,
            $"this file has more than {MostPerFile} warnings; this one and others are not reported",
            "look at the first ones: most of them usually have one cause");

    private struct Tally
    {
        public int Errors, Warnings;
        public bool IsToldOfErrors, IsToldOfWarnings;
    }
}
