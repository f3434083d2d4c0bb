using System.Collections.Immutable;
using System.Globalization;
using System.Net;
using System.Text;

namespace Archive.Documents.Transcripts;

/// <summary>Reads WebVTT (W3C, section 4: the file, its cues, voice spans). Linear in the text.</summary>
internal static class WebVtt
{
    public const int MostCues = 20_000;

    private const string Header = "WEBVTT";
    private const string Arrow = "-->";

    /// <summary>Reads a file.</summary>
    /// <param name="cues">Its cues, in file order.</param>
    /// <param name="error">What is wrong, and the number of its line, from 0; null where nothing is.</param>
    public static bool TryRead(string text, out ImmutableArray<Cue> cues, out (int Line, string What)? error)
    {
        var lines = text.TrimStart('\uFEFF').ReplaceLineEndings("\n").Split('\n');
        var found = ImmutableArray.CreateBuilder<Cue>();
        cues = [];
        error = lines[0].Split([' ', '\t'], 2)[0] == Header
            ? null
            : (0, "a WebVTT file begins with the line `WEBVTT`");
        for (var i = 1; i < lines.Length && error is null; i++)
        {
            if (lines[i].Length == 0) continue;
            var (start, end) = (i, i);
            while (end < lines.Length && lines[end].Length > 0) end++;
            i = end;

            // A cue may have a name, on the line before its times. Notes, styles and regions have no times.
            var times = lines[start].Contains(Arrow, StringComparison.Ordinal) ? start : start + 1;
            if (times >= end || !lines[times].Contains(Arrow, StringComparison.Ordinal)) continue;
            if (Times(lines[times]) is not var (from, to))
                error = (times, "this is not `START --> END`, each as `MM:SS.mmm` or `HH:MM:SS.mmm`");
            else if (to < from)
                error = (times, "this cue ends before it begins");
            else if (found.Count > 0 && from < found[^1].Start)
                error = (times, "this cue begins before the cue above it");
            else if (found.Count == MostCues)
                error = (times, $"this is more than {MostCues} cues");
            else
                found.Add(Cue(from, to, lines.AsSpan(times + 1, end - times - 1)));
        }

        if (error is null) cues = found.DrainToImmutable();
        return error is null;
    }

    private static Cue Cue(TimeSpan from, TimeSpan to, ReadOnlySpan<string> lines)
    {
        var (text, speaker, inTag) = (new StringBuilder(), "", false);
        var tag = new StringBuilder();
        foreach (var letter in string.Join(' ', lines.ToArray()))
        {
            if (inTag && letter == '>')
            {
                if (speaker.Length == 0 && Voice(tag.ToString()) is { } voice) speaker = voice;
                (inTag, _) = (false, tag.Clear());
            }
            else if (inTag) tag.Append(letter);
            else if (letter == '<') inTag = true;
            else text.Append(letter);
        }

        return new Cue(from, to, speaker, Plain(text.ToString()));
    }

    // <v Speaker> or <v.class Speaker>
    private static string? Voice(string tag) =>
        tag.StartsWith("v ", StringComparison.Ordinal) || tag.StartsWith("v.", StringComparison.Ordinal)
            ? tag.IndexOf(' ', StringComparison.Ordinal) is > 0 and var blank ? Plain(tag[blank..]) : null
            : null;

    private static string Plain(string text) => WebUtility.HtmlDecode(text).Trim();

    private static (TimeSpan From, TimeSpan To)? Times(string line)
    {
        var arrow = line.IndexOf(Arrow, StringComparison.Ordinal);
        var after = line[(arrow + Arrow.Length)..].Trim();
        var settings = after.IndexOfAny([' ', '\t']);
        return Time(line[..arrow].Trim()) is { } from && Time(settings < 0 ? after : after[..settings]) is { } to ? (from, to) : null;
    }

    private static TimeSpan? Time(string text)
    {
        var parts = text.Split(':');
        if (parts.Length is not (2 or 3) || parts[^1] is not { Length: 6 } seconds || seconds[2] != '.') return null;
        var (hours, minutes) = (0, 0);
        if (!Number(parts[^2], 59, out minutes) || parts[^2].Length != 2) return null;
        if (parts.Length == 3 && (parts[0].Length < 2 || !Number(parts[0], 9999, out hours))) return null;
        return Number(seconds[..2], 59, out var whole) && Number(seconds[3..], 999, out var thousandths)
            ? new TimeSpan(0, hours, minutes, whole, thousandths)
            : null;
    }

    private static bool Number(string digits, int most, out int value) =>
        int.TryParse(digits, NumberStyles.None, CultureInfo.InvariantCulture, out value) && value <= most;
}
