using System.Globalization;
using Archive.Records.Terms;
using Archive.SchemeSearch.Proposals;
using Archive.Wiring.Labels;

namespace Archive.SchemeSearch.Tests;

/// <summary>Reads labels by a proposal as the product does: its YAML is a record beside the machine's frames.</summary>
internal static class WiringCheck
{
    internal static CompiledScheme Compile(SchemeProposal proposal)
    {
        var model = WrittenArchive.Model(("schemes/found.yaml", proposal.ToYaml("found")));
        var scheme = CompiledScheme.Compile(model.Schemes.Single());
        Xunit.Assert.Empty(scheme.Errors);
        return scheme;
    }

    /// <summary>The places that a label means, in order; leading zeros do not matter, as in the record.</summary>
    internal static string Means(CompiledScheme scheme, string label) =>
        scheme.Read(label, out var why) is { } reading
            ? string.Join(" ", reading.Means.Select(Plain).Order(StringComparer.Ordinal))
            : $"not read: {why?.Why}";

    internal static string Means(params IEnumerable<string> addresses) =>
        string.Join(" ", addresses.Select(Plain).Order(StringComparer.Ordinal));

    private static string Plain(Address address) => Plain(address.ToString());

    private static string Plain(string address) =>
        System.Text.RegularExpressions.Regex.Replace(
            address, "[0-9]+", number => int.Parse(number.Value, CultureInfo.InvariantCulture).ToString(CultureInfo.InvariantCulture));
}
