using System.Collections.Immutable;
using Archive.Diagnostics.Descriptors;
using Archive.Diagnostics.Rendering;

namespace Archive.Diagnostics.Tests.Rendering;

/// <summary>
/// Errors of every shape that the renderers must set: plain, related, over lines, on one very long line, hostile, without text.
/// </summary>
internal static class SampleFaults
{
    private static readonly SourceText Frames = new(
        "frames/row 2.yaml",
        "- id: R2-05\n  name: HF receiver frame 5\n  weight: 310\n\tname: \u53d7\u4fe1\u6a5f frame, twice\n- id: R2-05\n  name: again\n");

    private static readonly SourceText Long = new("cables/list.csv", "id,label\n" + string.Concat(
        Enumerable.Repeat("C-0001 ", 60)) + "C-FAULT" + string.Concat(Enumerable.Repeat(" C-0002", 400)) + "\n");

    private static readonly SourceText Hostile = new(
        "stories/e\u001b[2J.md", "title: \u001b]0;owned\u0007 \u202etxt.exe\u0085 100% ::error file=a,line=1::no\r\n");

    private static readonly SourceText Unread = new("photos/P-1.yaml", "");

    internal static ImmutableArray<RenderedDiagnostic> All { get; } = RenderedDiagnostic.FromAll(
        [
            DiagnosticDescriptors.BareNumber.At(At(Frames, "310"), "310 has no unit", "write the unit, such as 310 kg"),
            DiagnosticDescriptors.DuplicateKey.At(
                At(Frames, "\u53d7\u4fe1\u6a5f"),
                "name is given twice",
                "keep one of the two",
                new Related(At(Frames, "name"), "first given here")),
            DiagnosticDescriptors.DuplicateId.At(
                new SourceSpan(Frames, Frames.Text.LastIndexOf("R2-05", StringComparison.Ordinal), 5),
                "R2-05 is the id of two records", "give one of them another id", new Related(At(Frames, "R2-05"), "first used here")),
            DiagnosticDescriptors.MissingKey.At(new SourceSpan(Frames, 0, 40), "the frame has no size", "add size: 600 x 600 x 2000 mm"),
            DiagnosticDescriptors.UnknownReference.At(At(Long, "C-FAULT"), "there is no cable C-FAULT", "did you mean C-0001?"),
            DiagnosticDescriptors.RawHtml.At(
                At(Hostile, "\u001b]0;owned\u0007"), "\u001b[31mred\u001b[0m\r\n::error::second line", "write 100%, plainly"),
            DiagnosticDescriptors.NotUtf8.At(Unread.Whole, "the file is not UTF-8 text", "save it as UTF-8"),
            DiagnosticDescriptors.BareNumber.At(At(Frames, "310"), "310 has no unit", "write the unit, such as 310 kg"),
        ],
        "content/");

    private static SourceSpan At(SourceText source, string text) =>
        new(source, source.Text.IndexOf(text, StringComparison.Ordinal), text.Length);
}
