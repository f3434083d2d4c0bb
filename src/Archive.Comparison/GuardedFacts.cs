using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Text;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Preservation.Bags;
using Archive.Records.Model;
using Archive.Records.Reading;

namespace Archive.Comparison;

/// <summary>
/// Facts of the state as found that may not be changed or taken away without a note: they are evidence. <c>guarded.txt</c> beside
/// <c>archive.yaml</c> lists them, a kind of record a line with the names of its facts; without the file the usual ones are guarded.
/// </summary>
/// <param name="ByKind">Names of facts by kind.</param>
/// <param name="Diagnostics">Lines of the file that cannot be read.</param>
public sealed record GuardedFacts(FrozenDictionary<RecordKind, ImmutableArray<string>> ByKind, ImmutableArray<Diagnostic> Diagnostics)
{
    /// <summary>The file's name at the archive's top.</summary>
    public const string FileName = GuardedFactsFile.Name;

    // What a survey sees and can never see again once the machine was taken apart.
    private const string Usual =
        "frames size weight positions found condition\ncables kind label ends length lies_in lies_over condition\ntrays path height size\nphotos file sha256 taken by\n";

    /// <summary>Reads the list of an archive.</summary>
    /// <param name="folder">The archive's folder.</param>
    public static GuardedFacts Read(IArchiveFolder folder)
    {
        var own = folder.Files.Contains(FileName) ? folder.Read(FileName, 1 << 20).Bytes : null;
        var source = new SourceText(FileName, own is null ? Usual : Encoding.UTF8.GetString(own));
        var facts = new Dictionary<RecordKind, ImmutableArray<string>>();
        var diagnostics = ImmutableArray.CreateBuilder<Diagnostic>();
        foreach (var span in new TagFile(source).Lines)
        {
            var words = span.Text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
            if (words.Length == 0 || words[0].StartsWith('#')) continue;
            if (RecordFolders.All.IndexOf(words[0]) is >= 0 and var kind && words.Length > 1)
                facts[(RecordKind)kind] = [.. facts.GetValueOrDefault((RecordKind)kind, []), .. words.Skip(1)];
            else diagnostics.Add(DiagnosticDescriptors.GuardLine.At(
                span,
                "this line does not name a type of record and its facts",
                $"write a folder of records and names of facts, such as `cables label ends length`; the folders are {string.Join(", ", RecordFolders.All)}"));
        }

        return new GuardedFacts(facts.ToFrozenDictionary(), diagnostics.DrainToImmutable());
    }

    /// <summary>
    /// The list to judge changes by: what the earlier state guarded stays guarded, so that no change loosens the guard and uses that at
    /// once.
    /// </summary>
    /// <param name="before">The earlier state's list; what it holds that cannot be read is not reported.</param>
    /// <param name="from">What the earlier state is called.</param>
    /// <returns>Both lists as one, with a warning for each kind of record of which facts are guarded no more.</returns>
    public GuardedFacts With(GuardedFacts before, string from)
    {
        var both = ByKind.ToDictionary();
        var loosened = ImmutableArray.CreateBuilder<Diagnostic>();
        foreach (var (kind, names) in before.ByKind.OrderBy(entry => entry.Key))
        {
            var now = ByKind.GetValueOrDefault(kind, []);
            var gone = names.Where(name => !now.Any(guarded => Covers(guarded, name))).Distinct(StringComparer.Ordinal).ToList();
            if (gone.Count == 0) continue;
            both[kind] = [.. now, .. gone];
            loosened.Add(DiagnosticDescriptors.GuardLoosened.At(
                new SourceText(FileName, "").Whole,
                $"{Short(string.Join(", ", gone))} of {RecordFolders.All[(int)kind]} {(gone.Count == 1 ? "was" : "were")} guarded in {from} and no longer {(gone.Count == 1 ? "is" : "are")}",
                "this comparison still guards them; if the list should be shorter, commit that alone, and compare later changes with that commit"));
        }

        return new GuardedFacts(both.ToFrozenDictionary(), [.. Diagnostics, .. loosened]);
    }

    /// <summary>Reports changes to guarded facts that have no note. A fact that was not known before may be added freely.</summary>
    public ImmutableArray<Diagnostic> Check(ArchiveComparison comparison) =>
        [
            .. Diagnostics,
            .. comparison.UnreadBefore.Select(unread => NotCompared(unread, comparison.From)),
            .. comparison.Changes.SelectMany(change => Check(change, comparison.From, !comparison.Unread.IsEmpty)).Order(Diagnostic.Order)
        ];

    private static Diagnostic NotCompared(Diagnostic unread, string from) => DiagnosticDescriptors.EarlierStateUnread.At(
        new SourceText(unread.Span.Path, "").Whole,
        $"{unread.Span} in {from} cannot be read: {unread.Message}; facts in this file may have changed unnoticed",
        "compare with an earlier state in which the file can be read");

    private IEnumerable<Diagnostic> Check(RecordChange change, string from, bool isUnread)
    {
        if (change.Kind is not { } kind || !ByKind.TryGetValue(kind, out var guarded)) yield break;
        if (change is { What: ChangeKind.Gone, Before: { } gone })
        {
            // What cannot be read is not gone: that it cannot is reported by itself.
            if (isUnread) yield break;
            yield return DiagnosticDescriptors.GuardedGone.At(
                gone.Span.Slice(0, 0),
                $"{change.Noun} {change.Id} was in {from} and is gone",
                "restore it; if it never existed, keep it with `withdrawn: why`; if it has another id now, add `was` to that record");
            yield break;
        }

        if (change.What == ChangeKind.Withdrawn || HasNote(change, "note")) yield break;
        foreach (var fact in change.Facts.Where(fact => fact.Before is not null))
        {
            var name = guarded.FirstOrDefault(name => Covers(name, fact.Name));
            if (name is null || IsEvidence(fact.Name, change) || HasNote(change, fact.Name + ".note")) continue;
            var place = fact.After?.Span ?? change.After!.Span.Slice(0, 0);
            var now = fact.After is { } after ? $"now says `{Short(after.Text)}`" : "is no longer there";
            yield return DiagnosticDescriptors.GuardedChanged.At(
                place,
                $"`{fact.Name}` of {change.Noun} {change.Id} said `{Short(fact.Before!.Value.Text)}` in {from}, {now}, without a note",
                IsTable(place)
                    ? $"say why: in the column `note`, or in a column such as `{Column(fact.Name)}_note`"
                    : $"say why: `note: …` on the record, or `{name}: {{is: …, note: …}}` on the fact");
        }
    }

    private static bool IsTable(SourceSpan place) => place.Path.EndsWith(".csv", StringComparison.OrdinalIgnoreCase);

    // Ends are the columns `a` and `b` of a table.
    private static string Column(string fact) => fact switch
    {
        "ends.1.at" => "a",
        "ends.2.at" => "b",
        "kind" or "label" => fact,
        _ => "length",
    };

    // How a fact is known may be said better at any time; only the fact itself is evidence.
    private static bool IsEvidence(string name, RecordChange change) =>
        name.LastIndexOf('.') is > 0 and var dot
            && name[(dot + 1)..] is "from" or "by" or "on" or "note"
            && (change.After ?? change.Before)!.Fact(name[..name.LastIndexOf('.')]) is not null;

    private static bool Covers(string guarded, string fact) => fact == guarded || fact.StartsWith(guarded + ".", StringComparison.Ordinal);

    private static bool HasNote(RecordChange change, string name) => change.Facts.Any(fact => fact.Name == name && fact.After is not null);

    private static string Short(string text) => text.Length > 60 ? text[..60] + "…" : text;
}
