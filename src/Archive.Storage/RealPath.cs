namespace Archive.Storage;

/// <summary>Where a path leads once every link in it has been followed.</summary>
public static class RealPath
{
    private const int MostLinks = 40;

    /// <summary>A path with every link in it resolved, as realpath(3) does; what does not exist stays as written.</summary>
    /// <param name="path">A full path.</param>
    /// <returns>Null where there are too many links.</returns>
    public static string? Resolve(string path)
    {
        var links = 0;
        var rest = new Stack<string>(path.Split(Path.DirectorySeparatorChar, StringSplitOptions.RemoveEmptyEntries).Reverse());
        var real = Path.GetPathRoot(path) ?? string.Empty;
        if (OperatingSystem.IsWindows() && rest.Count > 0) rest.Pop();
        while (rest.TryPop(out var part))
        {
            if (part == ".") continue;
            if (part == "..")
            {
                real = Path.GetDirectoryName(real) ?? real;
                continue;
            }

            var next = Path.Combine(real, part);
            if (new FileInfo(next).LinkTarget is not { } target)
            {
                real = next;
                continue;
            }

            if (++links > MostLinks) return null;
            if (Path.IsPathRooted(target)) real = Path.GetPathRoot(target)!;
            foreach (var step in target.Split(Path.DirectorySeparatorChar, StringSplitOptions.RemoveEmptyEntries).Reverse())
                rest.Push(step);
        }

        return real;
    }
}
