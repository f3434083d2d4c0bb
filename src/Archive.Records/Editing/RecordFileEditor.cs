using System.Collections.Immutable;
using System.Text;
using Archive.Diagnostics;
using Archive.Records.Facts;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Records.Reading.Syntax;

namespace Archive.Records.Editing;

/// <summary>
/// Writes facts into a file of records, in place: comments, order, quotes, line ends, a byte order mark and a missing last line end stay
/// as they are, byte for byte. Nothing is taken on trust: the result is read again, and if it does not say exactly what the file said
/// before and the new facts, nothing of it is used.
/// </summary>
public static class RecordFileEditor
{
    private const string OtherThanMeant = "the file is written in a way that this would change other facts; write it by hand";

    /// <summary>Largest file of records, in bytes.</summary>
    public const long LargestFile = FileText.Largest;

    /// <summary>Whether a file at a path can hold records of a kind; for null, whether it is <c>archive.yaml</c>.</summary>
    public static bool CanHold(string path, RecordKind? kind) =>
        ArchivePath.IsOfRecord(path)
            && ArchivePath.Resolve(FileReader.StatementFile, path) == path
            && FileRole.From(path) == new FileRole(kind is null, kind)
            && kind != RecordKind.Story;

    /// <summary>Edits a file.</summary>
    /// <param name="path">Its path within the archive.</param>
    /// <param name="kind">Kind of its records; null for <c>archive.yaml</c>.</param>
    /// <param name="before">Its bytes; null for a file that does not exist.</param>
    /// <param name="edits">What is written; at most one for each record.</param>
    public static FileEdit Edit(string path, RecordKind? kind, byte[]? before, IReadOnlyList<RecordEdit> edits)
    {
        var refusals = new List<EditRefusal>();
        edits = [.. edits.Select(edit => Checked(edit, kind, refusals)).Where(edit => edit.IsNew || !edit.Facts.IsEmpty)];
        if (edits.Count == 0) return new FileEdit(null, [.. refusals]);
        var diagnostics = new DiagnosticBag();
        var source = FileText.Decode(path, before ?? [], diagnostics);
        if (source is not null && MergeMarks.Find(source) is not null)
            return None(edits, "the file has a merge conflict that is not resolved", refusals);
        var after = source is null ? null
            : path.EndsWith(".csv", StringComparison.OrdinalIgnoreCase) ? CsvEditor.Edit(source, edits, diagnostics, refusals)
            : YamlEditor.Edit(source, kind, edits, diagnostics, refusals);
        if (diagnostics.All.FirstOrDefault(diagnostic => diagnostic.Severity == Severity.Error) is { } error)
        {
            var place = error.Span.Source.PositionOf(error.Span.Start);
            return None(edits, $"the file has an error in line {place.Line + 1}: {error.Message}; fix it first", refusals);
        }

        if (after is null) return None(edits, OtherThanMeant, refusals);
        if (after == source!.Text) return new FileEdit(null, [.. refusals]);
        var preamble = before?.AsSpan().StartsWith(Encoding.UTF8.Preamble) == true ? Encoding.UTF8.GetPreamble() : [];
        return new FileEdit([.. preamble, .. Encoding.UTF8.GetBytes(after)], [.. refusals]);
    }

    private static FileEdit None(IEnumerable<RecordEdit> edits, string why, List<EditRefusal> refusals)
    {
        var refused = refusals.Select(refusal => (refusal.Id, refusal.Key)).ToHashSet();
        foreach (var edit in edits.Where(edit => !refused.Contains((edit.Id, null))))
        {
            refusals.AddRange(edit.Facts.Where(fact => !refused.Contains((edit.Id, fact.Key)))
                .Select(fact => new EditRefusal(edit.Id, fact.Key, why)));
        }

        return new FileEdit(null, [.. refusals]);
    }

    private static RecordEdit Checked(RecordEdit edit, RecordKind? kind, List<EditRefusal> refusals)
    {
        var facts = ImmutableArray.CreateBuilder<FactToWrite>();
        foreach (var fact in edit.Facts)
        {
            var why = FactFormats.Find(kind, fact.Key) is null || fact.Key == "id" ? "there is no such key"
                : !IsText(fact) ? "it has half a character in it"
                : null;
            if (why is null) facts.Add(fact);
            else refusals.Add(new EditRefusal(edit.Id, fact.Key, why));
        }

        return edit with { Facts = facts.DrainToImmutable() };
    }

    // Half of a pair of UTF-16 cannot be written.
    private static bool IsText(FactToWrite fact) => Texts(FactTree.WithEvidence(fact)).All(text =>
    {
        for (var i = 0; i < text.Length; i++)
        {
            if (!char.IsSurrogate(text[i])) continue;
            if (i + 1 >= text.Length || !char.IsSurrogatePair(text[i], text[i + 1])) return false;
            i++;
        }

        return true;
    });

    private static IEnumerable<string> Texts(FactValue value) => value switch
    {
        SingleFact text => [text.Value],
        FactList list => list.Items.SelectMany(Texts),
        FactMapping mapping => mapping.Entries.SelectMany(entry => Texts(entry.Value).Prepend(entry.Key)),
        _ => [],
    };
}
