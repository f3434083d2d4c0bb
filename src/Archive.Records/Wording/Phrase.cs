using System.Globalization;
using Archive.Records.Model;

namespace Archive.Records.Wording;

/// <summary>The record's own terms in plain words.</summary>
public static class Phrase
{
    /// <summary>What becomes of a cable; empty where nothing is said.</summary>
    public static string For(Fate? fate) => fate switch
    {
        Fate.Coil => "coil",
        Fate.Remove => "remove",
        Fate.Sever => "cut",
        Fate.Leave => "leave",
        _ => "",
    };

    /// <summary>Which side a photo shows; empty where that is not said.</summary>
    public static string For(PhotoView? view) => view switch
    {
        PhotoView.Left => "left side",
        PhotoView.Right => "right side",
        PhotoView.Above => "from above",
        null => "",
        _ => view.Value.ToString().ToLowerInvariant(),
    };

    /// <summary>What happened.</summary>
    /// <param name="what">The event's word.</param>
    public static string For(EventType? what) => what switch
    {
        EventType.FoundMissing => "found missing",
        EventType.Stood => "set in place",
        EventType.Severed => "cut",
        null => "event",
        _ => what.Value.ToString().ToLowerInvariant(),
    };

    /// <summary>A family of cables.</summary>
    public static string For(CableFamily? family) => family switch
    {
        CableFamily.Coax => "coaxial",
        CableFamily.Pairs => "twisted pairs",
        CableFamily.Fibre => "optical fibre",
        CableFamily.Serial => "serial data",
        CableFamily.Ribbon => "ribbon",
        CableFamily.Power => "power feeder",
        CableFamily.Earth => "earth conductor",
        CableFamily.Other => "other",
        _ => "",
    };

    /// <summary>A clause as a sentence: its first letter large, a full stop behind.</summary>
    /// <param name="clause">A clause, such as a diagnostic's message.</param>
    public static string Sentence(string clause) =>
        clause.Length == 0 ? "" : char.ToUpperInvariant(clause[0]) + clause[1..] + (clause[^1] is '.' or '!' or '?' ? "" : ".");

    /// <summary>A name as a heading has it: its first letter large.</summary>
    /// <param name="name">A name, such as a module's.</param>
    public static string Heading(string name) => name.Length == 0 ? "" : char.ToUpperInvariant(name[0]) + name[1..];

    /// <summary>A side of the plan.</summary>
    public static string For(Compass side) => side.ToString().ToLowerInvariant();

    /// <summary>A row as one says it: of the record it has an id alone, and one that is made of words is read as those.</summary>
    /// <param name="id">The row's id.</param>
    /// <returns>Such as <c>row 2</c> for <c>row-2</c>, <c>power row</c> for <c>row-power</c>, <c>gallery 2</c> for <c>gallery-2</c>, <c>row
    /// B</c> for <c>B</c>.</returns>
    public static string Row(string id) => id.Split('-', '_') switch
    {
        ["row", var which] when IsWord(which) => $"{which} row",
        [var first, _, ..] parts when IsWord(first) && parts.All(part =>
            part.All(letter => char.IsAsciiLetterLower(letter) || char.IsAsciiDigit(letter))) => string.Join(' ', parts),
        _ => id.StartsWith("row", StringComparison.OrdinalIgnoreCase) ? id : $"row {id}",
    };

    /// <summary>A row's name where it stands by itself: <c>Row 2</c>.</summary>
    public static string NameOf(FrameRow row) => Sentence(Row(row.Id.Value)).TrimEnd('.');

    // A code such as R2 or A is none.
    private static bool IsWord(string part) => part.Length > 2 && part.All(char.IsAsciiLetterLower);

    /// <summary>Which of a few, such as <c>first</c>.</summary>
    /// <param name="index">Its number, from 0.</param>
    public static string Nth(int index) => index switch { 0 => "first", 1 => "second", 2 => "third", _ => $"{Number(index + 1)}th" };

    /// <summary>Which of many, such as <c>3rd</c>.</summary>
    /// <param name="index">Its number, from 0.</param>
    public static string Ordinal(int index) => Number(index + 1) + (((index + 1) % 100) is >= 11 and <= 13
        ? "th"
        : ((index + 1) % 10) switch { 1 => "st", 2 => "nd", 3 => "rd", _ => "th" });

    /// <summary>A figure within a sentence: its number and its unit stay on one line.</summary>
    /// <param name="figure">The figure, such as <c>8.5 m</c>.</param>
    public static string Unbroken(string figure) => figure.Replace(' ', '\u00A0');

    /// <summary>Things in a sentence: <c>one, two and three</c>.</summary>
    /// <param name="things">What is listed.</param>
    public static string Listed(IReadOnlyList<string> things) =>
        things.Count < 2 ? string.Concat(things) : $"{string.Join(", ", things.SkipLast(1))} and {things[^1]}";

    /// <summary>A text on one line, each run of blanks as one.</summary>
    public static string OneLine(string text) => string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    /// <summary>A number that names something, such as a step or a page, or that programs read: <c>11569</c>.</summary>
    public static string Number(int number) => number.ToString(CultureInfo.InvariantCulture);

    /// <summary>How many there are: <c>11,569</c>.</summary>
    public static string Count(int count) => count.ToString("N0", CultureInfo.InvariantCulture);

    /// <summary>A count with its noun.</summary>
    /// <param name="one">The noun for one.</param>
    /// <param name="many">The noun for any other count; else an s is set behind <paramref name="one"/>.</param>
    public static string Count(int count, string one, string? many = null) => $"{Count(count)} {(count == 1 ? one : many ?? one + "s")}";
}
