using System.Text.Json;
using Archive.Diagnostics.Rendering;
using Archive.Records.Facts;

namespace Archive.Comparison;

/// <summary>What differs, recorded: for people, for programs, as a page.</summary>
public static class ChangeReport
{
    // Longer texts are shown in part to people; programs get all.
    private const int Longest = 160;

    // Letters before the first that differs.
    private const int LedIn = 40;

    private static readonly JsonWriterOptions Readable = new() { Indented = true, NewLine = "\n", Encoder = JsonText.InMarkup };

    /// <summary>Writes changes for people: a record, then a line a fact, with who wrote it and when.</summary>
    public static void WriteText(TextWriter to, ArchiveComparison comparison)
    {
        foreach (var change in comparison.Changes)
        {
            to.Write($"{VisibleText.From(change.Noun)} {VisibleText.From(change.Id)}: {VisibleText.From(What(change))}\n");
            foreach (var fact in change.Facts)
            {
                to.Write($"  {VisibleText.From(fact.Name)}: {VisibleText.From(Said(fact))}\n");
                if (fact.By is { } by) to.Write($"    {VisibleText.From(By(by))}\n");
            }

            to.Write('\n');
        }
    }

    /// <summary>Writes changes for programs.</summary>
    /// <param name="to">Where to, in UTF-8.</param>
    public static void WriteJson(Stream to, ArchiveComparison comparison)
    {
        using var json = new Utf8JsonWriter(to, Readable);
        json.WriteStartObject();
        json.WriteString("from", comparison.From);
        json.WriteString("to", comparison.To);
        json.WriteStartArray("changes");
        foreach (var change in comparison.Changes)
        {
            json.WriteStartObject();
            json.WriteString("change", change.What.ToString().ToLowerInvariant());
            json.WriteString("kind", change.Noun);
            json.WriteString("id", change.Id);
            if (change.Was is { } was) json.WriteString("was", was);
            json.WriteStartArray("facts");
            foreach (var fact in change.Facts) Write(json, fact);
            json.WriteEndArray();
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
        json.Flush();
        to.WriteByte((byte)'\n');
    }

    private static void Write(Utf8JsonWriter json, FactChange fact)
    {
        json.WriteStartObject();
        json.WriteString("fact", fact.Name);
        Side("before", fact.Before);
        Side("after", fact.After);
        if (fact.By is { } by)
        {
            json.WriteString("by", by.Who);
            if (by.When.Length > 0) json.WriteString("on", by.When);
            if (by.Commit.Length > 0) json.WriteString("commit", by.Commit);
            if (by.Says.Length > 0) json.WriteString("message", by.Says);
        }

        json.WriteEndObject();

        void Side(string name, RawFact? side)
        {
            if (side is not { } said) return;
            json.WriteString(name, said.Text);
            json.WriteString(name + "_in", $"{said.Span.Path}:{said.Span.From.Line + 1}");
        }
    }

    /// <summary>What became of a record, in words.</summary>
    internal static string What(RecordChange change) => change switch
    {
        { What: ChangeKind.Gone } => "gone",
        { What: ChangeKind.Withdrawn } => $"withdrawn: {Short(change.After?.Fact("withdrawn")?.Text ?? "")}",
        { Was: { } was } => $"was {was}{(change.What == ChangeKind.Changed ? "" : $", {change.What.ToString().ToLowerInvariant()}")}",
        _ => change.What.ToString().ToLowerInvariant(),
    };

    /// <summary>Who wrote something and when, on a line.</summary>
    /// <param name="by">Who and when.</param>
    internal static string By(Authorship by) =>
        by.Commit.Length == 0 ? by.Who : $"{by.Who}, {by.When}, {by.Commit[..Math.Min(9, by.Commit.Length)]}: {Short(by.Says)}";

    /// <summary>A text on one line, cut where it is long.</summary>
    internal static string Short(string text) => Cut(OnOneLine(text));

    /// <summary>Both sides of a change on a line each; of long ones that begin alike, what stands from a little before they part.</summary>
    internal static (string? Before, string? After) Sides(FactChange fact)
    {
        if ((fact.Before, fact.After) is not ({ } before, { } after))
            return (fact.Before is { } gone ? Short(gone.Text) : null, fact.After is { } added ? Short(added.Text) : null);
        var (old, now) = (OnOneLine(before.Text), OnOneLine(after.Text));
        var alike = old.AsSpan().CommonPrefixLength(now);
        if (Math.Max(old.Length, now.Length) <= Longest || alike <= LedIn) return (Cut(old), Cut(now));
        var from = old.IndexOf(' ', alike - LedIn, LedIn) is >= 0 and var blank ? blank + 1 : alike;
        if (char.IsHighSurrogate(old[from - 1])) from--;
        return ("…" + Cut(old[from..]), "…" + Cut(now[from..]));
    }

    private static string OnOneLine(string text) => string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    private static string Cut(string line) =>
        line.Length <= Longest ? line : line[..(char.IsHighSurrogate(line[Longest - 1]) ? Longest - 1 : Longest)] + "…";

    private static string Said(FactChange fact) => Sides(fact) switch
    {
        (null, { } now) => now,
        ({ } old, var now) => $"{old} -> {now ?? "(nothing)"}",
        _ => "",
    };
}
