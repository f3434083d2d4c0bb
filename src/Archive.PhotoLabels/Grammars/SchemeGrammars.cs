using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using Archive.LabelRecognition.Decoding;
using Archive.LabelRecognition.Grammars;
using Archive.LabelRecognition.Readings;
using Archive.Records.Model;
using Archive.Wiring.Labels;

namespace Archive.PhotoLabels.Grammars;

/// <summary>The schemes of an archive as grammars: what tables and declared ports allow, and the form alone with little weight.</summary>
/// <param name="Schemes">The schemes, by id.</param>
/// <param name="Grammars">What is compiled of them.</param>
/// <param name="Unread">
/// Schemes that no grammar can be made of, with the reason: their labels are read freely and judged afterwards.
/// </param>
/// <param name="Places">What is declared.</param>
/// <param name="Key">A checksum of all that the grammars were made from.</param>
internal sealed record SchemeGrammars(
    ImmutableDictionary<string, CompiledScheme> Schemes,
    ImmutableArray<SchemeGrammar> Grammars,
    ImmutableArray<(string Scheme, string Why)> Unread,
    DeclaredPlaces Places,
    string Key)
{
    // How likely it is that a label means a place that is not declared, where all are, and where the record leaves some open. Ours.
    private const double Undeclared = 0.02;
    private const double UndeclaredWhereOpen = 0.2;

    private const string AnyText = "^.{1,60}$";

    /// <summary>Compiles the schemes of a record.</summary>
    internal static SchemeGrammars From(ArchiveModel record)
    {
        var places = DeclaredPlaces.From(record);
        var schemes = CompiledScheme.Tried(record).Where(scheme => scheme.Errors.IsEmpty && scheme.Scheme.Reads is not null).ToList();
        var unread = ImmutableArray.CreateBuilder<(string, string)>();
        ImmutableArray<SchemeGrammar> grammars = [.. schemes.SelectMany(scheme => Compile(scheme, places, unread))];
        return new SchemeGrammars(
            schemes.ToImmutableDictionary(scheme => scheme.Scheme.Id, StringComparer.Ordinal),
            grammars,
            unread.ToImmutable(),
            places,
            KeyOf(schemes, places));
    }

    /// <summary>The grammars for the classes of a recogniser.</summary>
    internal ImmutableArray<ReadableScheme> For(IReadOnlyList<string> classes) =>
        [.. Grammars.Select(grammar => new ReadableScheme(
            grammar.Scheme,
            new CtcDecoder(grammar.Automaton, GlyphWeights.From(grammar.Automaton.Glyphs, classes, grammar.Confusions)),
            grammar.Weight))];

    private static IEnumerable<SchemeGrammar> Compile(
        CompiledScheme scheme, DeclaredPlaces places, ImmutableArray<(string, string)>.Builder unread)
    {
        var id = scheme.Scheme.Id;
        var pattern = scheme.Scheme.Reads!.Value.Value;
        ImmutableArray<string> confusions = [.. scheme.Scheme.Confusions.Select(set => set.Value)];
        GroupValues[] tables = [.. scheme.Groups.Where(group => scheme.TableOf(group) is not null).Select(group =>
            GroupValues.For(group, scheme.TableOf(group)!.Keys.Order(StringComparer.Ordinal)))];
        var form = LabelGrammar.Compile(pattern, tables);
        if (form.Automaton is null) form = LabelGrammar.Compile(pattern);
        if (form.Automaton is null)
        {
            unread.Add((id, form.Problem!.Message));
            if (LabelGrammar.Compile(AnyText).Automaton is { } any) yield return new SchemeGrammar(id, any, confusions, 1);
            yield break;
        }

        var search = new CaptureSearch(scheme, pattern);
        GroupValues[] declared = [.. scheme.Meanings.Select(meaning => search.Find(meaning, places)).OfType<GroupValues>()];
        var narrow = declared.Length == 0 ? null : LabelGrammar.Compile(pattern, [.. tables, .. declared]).Automaton;
        var undeclared = narrow is null ? 1 : places.IsComplete ? Undeclared : UndeclaredWhereOpen;
        if (narrow is not null) yield return new SchemeGrammar(id, narrow, confusions, 1 - undeclared);
        yield return new SchemeGrammar(id, form.Automaton, confusions, undeclared);
    }

    private static string KeyOf(IEnumerable<CompiledScheme> schemes, DeclaredPlaces places)
    {
        var text = new StringBuilder();
        foreach (var scheme in schemes)
        {
            text.Append(scheme.Scheme.Id).Append('\0').Append(scheme.Scheme.Reads!.Value.Value).Append('\0');
            foreach (var meaning in scheme.Scheme.Means) text.Append(meaning.Value).Append('\0');
            foreach (var set in scheme.Scheme.Confusions) text.Append(set.Value).Append('\0');
            foreach (var (name, table) in scheme.Scheme.Tables.OrderBy(table => table.Key, StringComparer.Ordinal))
            {
                text.Append(name).Append('\0');
                foreach (var (key, value) in table.OrderBy(entry => entry.Key, StringComparer.Ordinal))
                    text.Append(key).Append('\0').Append(value.Value).Append('\0');
            }
        }

        foreach (var address in places.Addresses) text.Append(address).Append('\n');
        text.Append(places.IsComplete);
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text.ToString())));
    }
}

/// <summary>A scheme as a grammar.</summary>
/// <param name="Scheme">Id of the scheme.</param>
/// <param name="Automaton">The labels that are possible.</param>
/// <param name="Confusions">Sets of characters that are mistaken for each other.</param>
/// <param name="Weight">How likely it is that a label is one of these.</param>
internal sealed record SchemeGrammar(string Scheme, LabelAutomaton Automaton, ImmutableArray<string> Confusions, double Weight);
