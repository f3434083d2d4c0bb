using System.Buffers;
using System.Text.RegularExpressions;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;

namespace Archive.Records.Checks;

/// <summary>
/// What reading could not read. One slip in a file must not be reported a hundred times over: what only follows from it is
/// passed over until it is fixed.
/// </summary>
public sealed partial class ReadFailures
{
    // Each unknown name is compared with each refused id; a file full of bad ids must not make that dear.
    private const int MostRefused = 100;

    private static readonly SearchValues<char> BeforeIds = SearchValues.Create(": \t\"'");

    private readonly HashSet<string> _ids = new(StringComparer.Ordinal);
    private readonly HashSet<string> _folders = new(StringComparer.Ordinal);
    private readonly HashSet<string> _lost;
    private readonly List<string> _refused;
    private readonly Dictionary<string, List<int>> _faults = new(StringComparer.Ordinal);

    /// <summary>Finds the losses. Linear in the text of the files that have errors, and in the record where records have no id.</summary>
    /// <param name="parsed">All that was read, and what was reported about it.</param>
    public ReadFailures(ParseResult parsed, ArchiveModel record)
    {
        foreach (var file in parsed.Diagnostics
            .Where(diagnostic => diagnostic.Severity == Severity.Error)
            .GroupBy(diagnostic => diagnostic.Span.Path, StringComparer.Ordinal))
        {
            _faults[file.Key] = [.. file.Select(diagnostic => diagnostic.Span.Start).Order()];
            var text = file.First().Span.Source.Text;
            if (text.Length == 0) _folders.Add(FolderMeant(file.Key.Split('/')[0]));
            AddIds(file.Key, text, record);
        }

        _lost = FormerNames.Find(parsed, record);
        _refused = [.. parsed.Diagnostics
            .Where(diagnostic => diagnostic.Descriptor == DiagnosticDescriptors.BadId)
            .Select(diagnostic => diagnostic.Span.Text.Trim('"', '\''))
            .Take(MostRefused)];
    }

    /// <summary>Whether a record that could not be read may have had this id.</summary>
    /// <param name="kinds">What the record may be.</param>
    public bool MayHold(string id, IEnumerable<RecordKind> kinds) =>
        _ids.Contains(id)
            || _lost.Contains(id)
            || NearestName.Find(id, _refused) is not null
            || (_folders.Count > 0 && kinds.Any(kind => _folders.Contains(kind.Folder())));

    /// <summary>Whether any file of a kind had an error that may have cost a record or a value of it.</summary>
    public bool Touch(RecordKind kind) => _faults.Keys.Any(path => path.StartsWith(kind.Folder() + "/", StringComparison.Ordinal));

    /// <summary>Whether something within a span could not be read; of a table's row, something in its header too.</summary>
    /// <param name="span">The span, such as a record's.</param>
    public bool Touch(SourceSpan span)
    {
        if (!_faults.TryGetValue(span.Path, out var starts)) return false;
        if (span.Path.EndsWith(".csv", StringComparison.Ordinal) && span.Source.PositionOf(starts[0]).Line == 0) return true;
        var first = starts.BinarySearch(span.Start);
        if (first < 0) first = ~first;
        return first < starts.Count && starts[first] <= span.End;
    }

    // Of a folder by an unknown name nothing was read.
    private static string FolderMeant(string folder) => NearestName.Find(folder, RecordFolders.All) ?? folder;

    // A file may hold a million ids, usually the same few: a text is made only of one that is new.
    private void AddIds(string path, string text, ArchiveModel record)
    {
        if (Path.GetExtension(path) == ".md")
        {
            _ids.Add(Path.GetFileNameWithoutExtension(path));
            return;
        }

        var known = record.ById.GetAlternateLookup<ReadOnlySpan<char>>();
        var ids = _ids.GetAlternateLookup<ReadOnlySpan<char>>();
        foreach (var match in (Path.GetExtension(path) == ".csv" ? FirstCell() : IdKey()).EnumerateMatches(text))
        {
            var id = text.AsSpan(match.Index, match.Length);
            id = id[(id.LastIndexOfAny(BeforeIds) + 1)..];
            if (!known.ContainsKey(id)) ids.Add(id);
        }
    }

    [GeneratedRegex("""\bid:[ \t]*["']?[A-Za-z0-9._-]+""", RegexOptions.CultureInvariant)]
    private static partial Regex IdKey();

    [GeneratedRegex("""^"?[A-Za-z0-9._-]+""", RegexOptions.CultureInvariant | RegexOptions.Multiline)]
    private static partial Regex FirstCell();
}
