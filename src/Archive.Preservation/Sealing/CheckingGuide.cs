namespace Archive.Preservation;

/// <summary><c>how-to-check.txt</c>: how a stranger checks a bag with what any computer has.</summary>
internal static class CheckingGuide
{
    internal const string FileName = "how-to-check.txt";

    // Lists write %, line feed and carriage return as %25, %0A and %0D; sha512sum wants them plain, or with a backslash where it stands and one before the line.
    private const string ToPercent = "sed 's/%25/%/g'", ToNames = @"sed -e '/%0[AD]/{s/\\/\\\\/g;s/%0A/\\n/g;s/%0D/\\r/g;s/^/\\/;}' -e 's/%25/%/g'";
    private const string EscapedNote = "In the lists of this bag some names are written with %25, %0A or %0D for a per\ncent sign, a line feed or a carriage return; sed turns them back. With macOS,\nput the same sed before shasum.\n\n";

    /// <summary>The guide of a bag.</summary>
    /// <param name="title">What is in it.</param>
    /// <param name="payload">Its payload.</param>
    /// <param name="about">What its folders hold, a line each.</param>
    internal static string Text(string title, IReadOnlyCollection<SealedFile> payload, IEnumerable<string> about)
    {
        var (escaped, broken) = (payload.Any(file => BagPath.Encode(file.Path) != file.Path), payload.Any(file => file.Path.AsSpan().ContainsAny('\n', '\r')));
        var check = escaped ? $"{(broken ? ToNames : ToPercent)} manifest-sha512.txt | sha512sum --quiet --strict --check" : "sha512sum --quiet --strict --check manifest-sha512.txt";
        var count = broken ? "find data -type f -print0 | tr -cd '\\0' | wc -c" : "find data -type f | wc -l";
        var listed = escaped ? "cut -c 131- manifest-sha512.txt | sed 's/%25/%/g' | sort" : "cut -c 131- manifest-sha512.txt | sort";
        using var stream = typeof(CheckingGuide).Assembly.GetManifestResourceStream(FileName)!;
        using var reader = new StreamReader(stream);
        return FormattableString.Invariant(FormattableStringFor(reader.ReadToEnd(), title, payload.Count, payload.Sum(file => file.Length), check, count, listed, escaped ? EscapedNote : "", string.Join("\n", about)));
    }

    private static FormattableString FormattableStringFor(string template, params object[] values) => System.Runtime.CompilerServices.FormattableStringFactory.Create(template, values);
}
