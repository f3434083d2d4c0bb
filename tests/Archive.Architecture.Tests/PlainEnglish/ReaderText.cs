using System.Text.RegularExpressions;

namespace Archive.Architecture.Tests.PlainEnglish;

/// <summary>A text that a reader of asfound meets, and where it is written.</summary>
/// <param name="File">The file, relative to the repository.</param>
/// <param name="Line">The line on which the text begins, from 1.</param>
/// <param name="Text">The text; what is filled in or is code is blanked out.</param>
public sealed partial record ReaderText(string File, int Line, string Text)
{
    // Stands for what is filled in: no letter, and no white space.
    private const char Filled = '·';

    /// <summary>
    /// All texts of the repository that readers meet: strings of the source, help, pages of codes, templates, scripts of the theme, and
    /// documents.
    /// </summary>
    /// <param name="root">The repository.</param>
    public static IEnumerable<ReaderText> All(string root) =>
    [
        .. Of(root, "src", "*.cs", CSharp),
        .. Of(root, "src", "*.txt", WholeText),
        .. Of(root, "src", "*.md", Markdown),
        .. Of(root, "themes", "*.html", Template),
        .. Of(root, "themes", "*.js", Script),
        .. Of(root, "themes", "*.md", Markdown),
        .. Of(root, "", "*.md", Markdown),
    ];

    private static IEnumerable<ReaderText> Of(
        string root, string folder, string pattern, Func<string, IEnumerable<(int Line, string Text)>> read) =>
        from path in Directory.EnumerateFiles(
            Path.Combine(root, folder), pattern, folder.Length == 0 ? SearchOption.TopDirectoryOnly : SearchOption.AllDirectories)
        let file = Path.GetRelativePath(root, path).Replace('\\', '/')
        where !file.Contains("/obj/", StringComparison.Ordinal)
            && !file.Contains("/bin/", StringComparison.Ordinal)
            && !file.Contains("/Licences/", StringComparison.Ordinal)
        orderby file
        from text in read(System.IO.File.ReadAllText(path))
        select new ReaderText(file, text.Line, text.Text);

    private static IEnumerable<(int Line, string Text)> WholeText(string text) => [(1, text)];

    // What is set as code is a name, not a phrase; a block of code with a word and prose in it is an example that readers read.
    private static IEnumerable<(int Line, string Text)> Markdown(string text) => [(1, CodeSpan().Replace(text, Blank))];

    /// <summary>
    /// The strings of C# that are phrases or labels: those with a blank, and single words with a capital. Names of keys and files are
    /// neither.
    /// </summary>
    public static IEnumerable<(int Line, string Text)> CSharp(string source) =>
        CSharpStrings.In(source)
            .Where(text => text.Text.Trim().Contains(' ', StringComparison.Ordinal) || Capitalised().IsMatch(text.Text));

    // Attributes that are shown or read aloud stay; other tags go.
    private static IEnumerable<(int Line, string Text)> Template(string text) => [(1, Visible(Statement().Replace(text, Blank)))];

    /// <summary>
    /// What a reader meets of HTML: its text, and the attributes that are shown or read aloud. Lines stay where they are.
    /// </summary>
    public static string Visible(string html) =>
        Tag().Replace(Unseen().Replace(html, Blank), tag => string.Concat(Shown()
            .Matches(tag.Value)
            .Select(shown => $" | {shown.Groups["text"].Value}")) + " | " + new string('\n', tag.Value.Count(c => c == '\n')));

    private static IEnumerable<(int Line, string Text)> Script(string text) =>
        from line in text.Split('\n').Select((line, index) => (Code: LineComment().Replace(line, ""), Number: index + 1))
        from literal in ScriptString().Matches(line.Code)
        let said = literal.Value[1..^1]
        where said.Trim().Contains(' ', StringComparison.Ordinal) || Capitalised().IsMatch(said)
        select (line.Number, said);

    private static string Blank(Match match) => string.Concat(match.Value.Select(letter => letter == '\n' ? '\n' : Filled));

    [GeneratedRegex(@"`[^`\n]+`")]
    private static partial Regex CodeSpan();

    [GeneratedRegex(@"^[A-Z][a-z]+$")]
    private static partial Regex Capitalised();

    [GeneratedRegex(@"\{\{.*?\}\}", RegexOptions.Singleline)]
    private static partial Regex Statement();

    [GeneratedRegex(@"<(script|style|pre|code)\b[^>]*>.*?</\1>", RegexOptions.Singleline | RegexOptions.IgnoreCase)]
    private static partial Regex Unseen();

    [GeneratedRegex("<[^>]+>")]
    private static partial Regex Tag();

    [GeneratedRegex("""(?:aria-label|title|alt|content|data-is|placeholder)="(?<text>[^"]*)"|'(?<text>)'""")]
    private static partial Regex Shown();

    [GeneratedRegex(@"(?:^|\s)//.*")]
    private static partial Regex LineComment();

    [GeneratedRegex("""
        "(?:[^"\\]|\\.)*"|'(?:[^'\\]|\\.)*'
        """, RegexOptions.IgnorePatternWhitespace)]
    private static partial Regex ScriptString();
}
