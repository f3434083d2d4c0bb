using Archive.Records.Reading;

namespace Archive.Cli.Options;

/// <summary>A file that is given to a command and is not part of the record.</summary>
internal static class InputFile
{
    /// <summary>Requires a file that can be read.</summary>
    /// <param name="typed">As typed.</param>
    /// <param name="largest">In bytes.</param>
    /// <param name="help">What to name instead.</param>
    /// <returns>Its full path.</returns>
    /// <exception cref="WrongCommandLineException">There is none.</exception>
    internal static string Require(string typed, long largest, string help)
    {
        if (typed.Length == 0) throw new WrongCommandLineException("FILE is empty", help);
        var path = Path.GetFullPath(typed);
        if (Directory.Exists(path)) throw new WrongCommandLineException($"{typed} is a folder", help);
        if (SpecialFile.KindOf(path) is { } what) throw new WrongCommandLineException($"{typed} is {what}, not a file", help);
        if (!File.Exists(path)) throw new WrongCommandLineException($"there is no file {typed}", help);
        if (new FileInfo(path).Length > largest)
            throw new WrongCommandLineException($"{typed} is larger than {largest >> 20} MB", help);
        return path;
    }
}
