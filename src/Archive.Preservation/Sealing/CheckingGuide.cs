namespace Archive.Preservation;

/// <summary><c>how-to-check.txt</c>: how a stranger checks a bag with what any computer has.</summary>
internal static class CheckingGuide
{
    internal const string FileName = "how-to-check.txt";

    /// <summary>The guide of a bag.</summary>
    /// <param name="title">What is in it.</param>
    /// <param name="files">Files of its payload.</param>
    /// <param name="bytes">Bytes of its payload.</param>
    /// <param name="about">What its folders hold, a line each.</param>
    internal static string Text(string title, int files, long bytes, IEnumerable<string> about)
    {
        using var stream = typeof(CheckingGuide).Assembly.GetManifestResourceStream(FileName)!;
        using var reader = new StreamReader(stream);
        return FormattableString.Invariant(FormattableStringFor(reader.ReadToEnd(), title, files, bytes, string.Join("\n", about)));
    }

    private static FormattableString FormattableStringFor(string template, params object[] values) => System.Runtime.CompilerServices.FormattableStringFactory.Create(template, values);
}
