using System.Collections.Immutable;

namespace Archive.Preservation.Bags;

/// <summary>
/// Where unpackers, on whatever system, would put what is in a ZIP file: finds two things that come to one place. Memory and time are
/// linear in the length of all names.
/// </summary>
internal sealed class ZippedTree
{
    private const int Top = -1;
    private readonly Dictionary<(int Parent, string Key), int> _places = [];
    private readonly List<Place> _all = [];

    // Spellings other than the first that were reported.
    private readonly HashSet<(int Place, string Part)> _told = [];

    /// <summary>Puts something in its place.</summary>
    /// <param name="name">Its name; that of a folder ends with a stroke.</param>
    /// <returns>What is wrong, as a sentence; null where the place was free.</returns>
    internal string? Put(string name)
    {
        var isFolder = name.EndsWith('/');
        ImmutableArray<string> parts = [.. name.Split('/').Where(part => part is not ("" or "." or ".."))];
        var parent = Top;
        string? wrong = null;
        for (var i = 0; i < parts.Length; i++)
        {
            var isFile = i == parts.Length - 1 && !isFolder;
            var key = (parent, BagPath.Fold(parts[i]).TrimEnd(' ', '.'));
            if (!_places.TryGetValue(key, out var place))
            {
                place = _places[key] = _all.Count;
                _all.Add(new Place(parent, parts[i], isFile));
            }
            else if (wrong is null)
            {
                wrong = Conflict(name, parts[i], place, isFile);
            }

            parent = place;
        }

        return wrong;
    }

    private string? Conflict(string name, string part, int place, bool isFile)
    {
        var (_, spelling, wasFile) = _all[place];
        if (isFile != wasFile) return $"{Path(place)} is packed as a file and as a folder";
        if (spelling == part) return isFile ? $"{Path(place)} is packed twice" : null;
        return isFile || _told.Add((place, part)) ? $"{name.TrimEnd('/')} and {Path(place)} become the same file on some systems" : null;
    }

    private string Path(int place)
    {
        var parts = new List<string>();
        for (; place != Top; place = _all[place].Parent) parts.Add(_all[place].Spelling);
        parts.Reverse();
        return string.Join('/', parts);
    }

    private readonly record struct Place(int Parent, string Spelling, bool IsFile);
}
