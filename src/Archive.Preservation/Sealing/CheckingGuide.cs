using Archive.Preservation.Bags;

namespace Archive.Preservation.Sealing;

/// <summary><c>how-to-check.txt</c>: how a stranger checks a bag with what any computer has.</summary>
internal static class CheckingGuide
{
    internal const string FileName = "how-to-check.txt";

    // Lists write % as %25; a line feed or a carriage return is in no name that is sealed.
    private const string ToPercent = "sed 's/%25/%/g'";
    private const string EscapedNote =
        "In the lists of this bag some names are written with %25 for a per cent sign; sed\nturns them back. With macOS, put the same sed before shasum.\n\n";

    /// <summary>The guide of a bag.</summary>
    /// <param name="about">What its folders hold, a line each.</param>
    internal static string Text(string title, IReadOnlyCollection<SealedFile> payload, IEnumerable<string> about)
    {
        var escaped = payload.Any(file => BagPath.Encode(file.Path) != file.Path);
        var check = escaped
            ? $"{ToPercent} manifest-sha512.txt | sha512sum --quiet --strict --check"
            : "sha512sum --quiet --strict --check manifest-sha512.txt";
        var listed = escaped ? $"cut -c 131- manifest-sha512.txt | {ToPercent} | sort" : "cut -c 131- manifest-sha512.txt | sort";
        using var stream = typeof(CheckingGuide).Assembly.GetManifestResourceStream(FileName)!;
        using var reader = new StreamReader(stream);
        return FormattableString.Invariant(FormattableStringFor(
            reader.ReadToEnd(),
            title,
            payload.Count,
            payload.Sum(file => file.Length),
            check,
            listed,
            escaped ? EscapedNote : "",
            string.Join("\n", about)));
    }

    private static FormattableString FormattableStringFor(string template, params object[] values) =>
        System.Runtime.CompilerServices.FormattableStringFactory.Create(template, values);
}
