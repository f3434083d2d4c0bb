using NUglify;
using NUglify.JavaScript;

namespace Archive.Markup.Templates;

/// <summary>
/// A script without its comments and blanks, and with short names for what it keeps to itself. What the library cannot read is published
/// as it is.
/// </summary>
/// <remarks>
/// A theme may come with a stranger's archive, and the library goes deeper with each thing that holds another: 200,000 brackets ended the
/// process, and 65,000 took it minutes. So scripts that are long or deep are left alone, and the others get a stack that no script of this
/// length fills (tried with forty forms of nesting, twice as long).
/// </remarks>
internal static class ShortScript
{
    private const int Longest = 32 * 1024;
    private const int Deepest = 100;
    private const int Stack = 256 << 20;

    internal static string Of(string text)
    {
        if (text.Length > Longest || IsDeep(text)) return text;
        var shorter = text;
        var thread = new Thread(() => shorter = Shorten(text), Stack);
        thread.Start();
        thread.Join();
        return shorter;
    }

    private static string Shorten(string text)
    {
        try
        {
            var shorter = Uglify.Js(text, new CodeSettings());
            return shorter.HasErrors ? text : shorter.Code + "\n";
        }
        catch (Exception exception) when (exception is not OutOfMemoryException)
        {
            // The library trips over some scripts that are none.
            return text;
        }
    }

    // Brackets in strings count, too: a script that has a hundred more of those open than closed stays as it is.
    private static bool IsDeep(string text)
    {
        var depth = 0;
        foreach (var letter in text)
        {
            if (letter is '(' or '[' or '{') depth++;
            else if (letter is ')' or ']' or '}') depth--;
            if (depth > Deepest) return true;
        }

        return false;
    }
}
