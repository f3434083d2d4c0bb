using System.Text;
using Archive.Diagnostics.Rendering;

namespace Archive.Cli.Output;

/// <summary>Where a command speaks: errors and pages of help go to <see cref="Out"/>, everything else to <see cref="Error"/>.</summary>
/// <param name="Out">Standard output.</param>
/// <param name="Error">Standard error.</param>
/// <param name="Style">How errors for people are set on <see cref="Out"/>.</param>
/// <param name="ErrorStyle">The same on <see cref="Error"/>.</param>
/// <param name="IsWatched">Whether somebody sits before standard error and progress may be drawn there.</param>
internal sealed record Terminal(TextWriter Out, TextWriter Error, TextStyle Style, TextStyle ErrorStyle, bool IsWatched)
{
    private readonly TextWriter _screen = Error;

    /// <summary>Standard output; nothing harmful gets through it.</summary>
    internal TextWriter Out { get; } = new VisibleWriter(Out);

    /// <summary>Standard error; nothing harmful gets through it.</summary>
    internal TextWriter Error { get; } = new VisibleWriter(Error);

    /// <summary>Where someone answers questions; null where nobody does.</summary>
    internal TextReader? Input { get; init; }

    /// <summary>Shows the cursor again, which bars of progress hide (DECTCEM of ECMA-48 terminals).</summary>
    internal void ShowCursor()
    {
        if (IsWatched) _screen.Write("\u001b[?25h");
    }

    /// <summary>The process's own.</summary>
    internal static Terminal Own()
    {
        // Reported in UTF-8 whatever the locale: reports are read by programs too.
        var output = new StreamWriter(Console.OpenStandardOutput(), new UTF8Encoding(false), 1 << 14) { NewLine = "\n" };
        var error = new StreamWriter(Console.OpenStandardError(), new UTF8Encoding(false)) { NewLine = "\n", AutoFlush = true };
        if (OperatingSystem.IsWindows()) Console.OutputEncoding = Encoding.UTF8;
        var isWatched = !Console.IsErrorRedirected && !IsSet("CI") && Term is not ("dumb" or "");
        return new Terminal(output, error, StyleOf(Console.IsOutputRedirected), StyleOf(Console.IsErrorRedirected), isWatched)
        {
            Input = isWatched && !Console.IsInputRedirected ? Console.In : null,
        };
    }

    private static string Term => OperatingSystem.IsWindows() ? "windows" : Environment.GetEnvironmentVariable("TERM") ?? "";

    private static TextStyle StyleOf(bool isRedirected)
    {
        if (isRedirected) return TextStyle.Plain;

        // https://no-color.org: any value that is not empty.
        return new TextStyle(Colour: !IsSet("NO_COLOR") && Term is not ("dumb" or ""), Width: Math.Clamp(Width(), 40, 200));
    }

    private static int Width()
    {
        try
        {
            return Console.WindowWidth;
        }
        catch (IOException)
        {
            return 0;
        }
    }

    private static bool IsSet(string variable) => !string.IsNullOrEmpty(Environment.GetEnvironmentVariable(variable));
}
