using System.Collections.Immutable;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Reading.Values;

namespace Archive.Records.Reading.Kinds;

/// <summary>Reads which warnings are accepted, and why.</summary>
internal static class AcceptReader
{
    /// <param name="key">The key under which they are listed.</param>
    public static ImmutableArray<AcceptedWarning> Read(MappingReader from, FormatKey key)
    {
        if (from.Table(key.Name) is not { } listed) return [];
        var accepted = ImmutableArray.CreateBuilder<AcceptedWarning>();
        foreach (var code in listed.Keys)
        {
            if (!DiagnosticDescriptors.Acceptable.Any(known => known.Code == code.Text))
            {
                from.Diagnostics.Add(DiagnosticDescriptors.UnknownWord.At(
                    code.Span,
                    $"`{code.Short}` is not a warning that can be accepted",
                    $"write one of {string.Join(", ", DiagnosticDescriptors.Acceptable.Select(known => known.Code))}; anything else is to be fixed"));
            }
            else if (listed.Single(code.Text, ValueFormats.Text) is { } reason)
            {
                accepted.Add(new AcceptedWarning(code.Text, code.Span, reason.Value));
            }
        }

        return accepted.DrainToImmutable();
    }
}
