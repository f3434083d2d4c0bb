using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Text.RegularExpressions;
using Archive.Records.Model;

namespace Archive.Intake;

/// <summary>Finds in names and codes which records and which view a photo may show.</summary>
internal sealed partial class SubjectNames
{
    private const int LongestRun = 8; // words that an id may be written in

    /// <summary>Words of a name, and the view that they mean.</summary>
    internal static FrozenDictionary<string, string> ViewWords { get; } = new Dictionary<string, string>
    {
        ["front"] = "front",
        ["rear"] = "rear",
        ["back"] = "rear",
        ["left"] = "left",
        ["right"] = "right",
        ["top"] = "top",
        ["above"] = "above",
        ["overhead"] = "above",
        ["detail"] = "detail",
        ["close"] = "detail",
        ["closeup"] = "detail",
        ["label"] = "label",
        ["overall"] = "overall",
        ["whole"] = "overall",
    }.ToFrozenDictionary(StringComparer.OrdinalIgnoreCase);

    private readonly ArchiveModel _record;
    private readonly string? _base;
    private readonly FrozenDictionary<string, string> _ids;

    /// <summary>Lists the names of a record's things.</summary>
    public SubjectNames(ArchiveModel record)
    {
        _record = record;
        _base = record.Statement.Base?.Value.AbsoluteUri.TrimEnd('/');
        _ids = record.ById.Values
            .Where(known => !known.IsWithdrawn
                && known.RecordKind is RecordKind.Frame or RecordKind.Cable or RecordKind.Tray or RecordKind.Hall)
            .GroupBy(known => Plain(known.Id), StringComparer.Ordinal)
            .ToFrozenDictionary(
                group => group.Key, group => group.Select(known => known.Id).Min(StringComparer.Ordinal)!, StringComparer.Ordinal);
    }

    /// <summary>
    /// The ids that stand in a name, in the order in which they stand: <c>R2-05_rear</c>, <c>r2 05</c>, <c>IMG_1 (C-0417)</c>.
    /// </summary>
    /// <param name="name">A file's or folder's name.</param>
    public ImmutableArray<string> IdsIn(string name)
    {
        var words = Words(name);
        var found = ImmutableArray.CreateBuilder<string>();
        for (var start = 0; start < words.Length; start++)
        {
            // The longest first: R2-05 before R2.
            for (var length = Math.Min(LongestRun, words.Length - start); length > 0; length--)
            {
                var run = words.AsSpan(start, length);
                if (!_ids.TryGetValue(string.Join('-', run!), out var id) || !IsTelling(id, words.Length == length)) continue;
                if (!found.Contains(id)) found.Add(id);
                start += length - 1;
                break;
            }
        }

        return found.ToImmutable();
    }

    /// <summary>The view that a name tells; null if it tells none, or more than one.</summary>
    /// <param name="name">A file's or folder's name.</param>
    public static string? ViewIn(string name)
    {
        var views = Words(name).Select(word => ViewWords.GetValueOrDefault(word)).OfType<string>()
            .Distinct(StringComparer.Ordinal).ToList();
        return views.Count == 1 ? views[0] : null;
    }

    /// <summary>The record that a label's code names: by the address of its page in this archive, or by its bare id.</summary>
    /// <param name="code">The code's text.</param>
    /// <returns>Its present id; null if it is no label of this archive.</returns>
    public string? IdOf(string code)
    {
        var text = code.Trim();
        if (_base is not null && text.StartsWith(_base + "/", StringComparison.OrdinalIgnoreCase))
            return Known(PageOf().Match(text[_base.Length..]).Groups[1].Value);

        // A label printed before the archive had its base, or under another host: the end of its address is the same.
        return Known(text) ?? (PageAtEnd().Match(text) is { Success: true } page ? Known(page.Groups[1].Value) : null);
    }

    private string? Known(string id)
    {
        if (id.Length == 0) return null;
        var known = _record.Find(Uri.UnescapeDataString(id));
        return known is null || known.IsWithdrawn ? null : known.Id;
    }

    // "12" in IMG_12 is no frame 12: an id must hold letters and digits, or be all there is.
    private static bool IsTelling(string id, bool isWhole) => isWhole || (id.Any(char.IsAsciiLetter) && id.Any(char.IsAsciiDigit));

    private static string Plain(string id) => string.Join('-', Words(id));

    private static string[] Words(string name) => [.. WordShape().Matches(name).Select(match => match.Value.ToLowerInvariant())];

    [GeneratedRegex("[A-Za-z0-9]+", RegexOptions.CultureInvariant)]
    private static partial Regex WordShape();

    [GeneratedRegex("^/(?:frames|cables|trays|halls)/([^/?#]+)(?:/|/index[.]html)?(?:[?#].*)?$", RegexOptions.CultureInvariant)]
    private static partial Regex PageOf();

    [GeneratedRegex(
        "^https?://[^?#]*/(?:frames|cables|trays|halls)/([^/?#]+)(?:/|/index[.]html)?(?:[?#].*)?$", RegexOptions.CultureInvariant)]
    private static partial Regex PageAtEnd();
}
