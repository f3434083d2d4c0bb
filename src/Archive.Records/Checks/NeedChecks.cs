using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;

namespace Archive.Records.Checks;

/// <summary>What frames and displays need can be met.</summary>
internal static class NeedChecks
{
    public static IEnumerable<Diagnostic> ModulesHaveFrames(CheckContext context)
    {
        if (context.Losses.Touch(RecordKind.Frame)) return [];
        var sizes = ModuleSizes(context);
        return
            from any in AllOf(context)
            where any.Module is not null
            let module = any.Module!.Value
            where !sizes.ContainsKey(module.Value)
            let nearest = NearestName.Find(module.Value, sizes.Keys)
            select DiagnosticDescriptors.UnknownModule.At(
                module.Span,
                $"no frame belongs to a module `{module.Value}`",
                nearest is null ? "write the module exactly as the frames do" : $"did you mean `{nearest}`?");
    }

    public static IEnumerable<Diagnostic> CanBeMet(CheckContext context)
    {
        var sizes = ModuleSizes(context);
        return
            from any in AllOf(context)
            let choices = any.Module is { } module ? sizes.GetValueOrDefault(module.Value) : any.Of.Length
            where any.Any.Value > choices
                && choices > 0
                && !(any.Module is null ? context.Losses.Touch(any.Span) : context.Losses.Touch(RecordKind.Frame))
            select DiagnosticDescriptors.TooManyWanted.At(
                any.Any.Span,
                any.Module is { } of
                    ? $"{any.Any.Value} frames of module `{of.Value}` are required, but it has {choices}"
                    : $"{any.Any.Value} of a list of {choices} are required",
                $"require at most {choices}, or add more choices");
    }

    private static Dictionary<string, int> ModuleSizes(CheckContext context) =>
        context.Record.Frames.Where(frame => frame.Module is not null && !frame.IsWithdrawn)
            .CountBy(frame => frame.Module!.Value.Value, StringComparer.Ordinal)
            .ToDictionary(StringComparer.Ordinal);

    private static IEnumerable<AnyNeed> AllOf(CheckContext context) => context.Draft.Records.SelectMany(record => record switch
    {
        Frame { Needs.IsEmpty: false } frame => AllOf(frame.Needs),
        Display display => AllOf(display.Needs),
        _ => [],
    });

    private static IEnumerable<AnyNeed> AllOf(ImmutableArray<Need> needs) =>
        needs.OfType<AnyNeed>().SelectMany(any => AllOf(any.Of).Prepend(any));
}
