using System.Globalization;
using System.Text;

namespace Archive.Testing;

/// <summary>An archive that says one text in every field that takes text, and in prose.</summary>
public static class HostileArchive
{
    /// <summary>Its files.</summary>
    public static (string Path, string Text)[] With(string text)
    {
        var yaml = Quoted(text);

        // As it is, on one line: YAML knows ways to write a control character, Markdown takes it raw.
        var inProse = text.ReplaceLineEndings(" ");
        return
        [
            (
                "archive.yaml",
                $"title: {yaml}\ncustodian: {yaml}\nbase: https://archive.example/\nrights: {{licence: CC-BY-4.0, credit: {yaml}}}\npeople: {{hk: {{name: {yaml}, role: {yaml}}}}}\nabout: {yaml}\n"),
            ("frames/f.yaml", $"""
                - id: F-1
                  name: {yaml}
                  module: {yaml}
                  weight: {"{"}is: 310 kg, from: told, by: hk, note: {yaml}{"}"}
                  positions: [{"{"}id: S1, holds: {yaml}, note: {yaml}, from_floor: 300 mm, height: 200 mm{"}"}]
                  about: {yaml}
                  condition: {yaml}
                  note: {yaml}
                  found: {"{"}by: hk{"}"}
                - id: F-2
                  withdrawn: {yaml}
                """),
            ("kinds/k.yaml", $"- {{id: k, name: {yaml}, family: power, about: {yaml}}}\n"),
            (
                "cables/c.yaml",
                $"- {{id: C-1, kind: k, label: {yaml}, ends: [{{at: F-1/S1/J1, connector: {yaml}, label: {yaml}, note: {yaml}}}], fate: leave, reason: {yaml}, note: {yaml}, lies_in: [T-1]}}\n"),
            (
                "trays/t.yaml",
                $"- {{id: T-1, name: {yaml}, hall: h, path: [[0, 0], [1000, 0]], note: {yaml}, size: 450 x 100 mm, height: 2 m}}\n"),
            ("halls/h.yaml", $"""
                - id: h
                  name: {yaml}
                  as_found: true
                  outline: [[0, 0], [8000, 0], [8000, 6000]]
                  openings: [{"{"}name: {yaml}, from: [0, 0], to: [1000, 0]{"}"}]
                  obstacles: [{"{"}name: {yaml}, outline: [[1, 1], [9, 1], [9, 9]]{"}"}]
                  rows: [{"{"}id: {yaml}, at: [1000, 2000], runs: east, faces: south, frames: [F-1]{"}"}]
                  about: {yaml}
                """),
            (
                "schemes/s.yaml",
                $"- {{id: s, name: {yaml}, reads: '^(?<row>.*)$', means: ['{{row}}'], tables: {{row: {{{yaml}: F-1}}}}, confusions: [{yaml}], examples: {{{yaml}: [F-1]}}, note: {yaml}}}\n"),
            ("displays/d.yaml", $"- {{id: d, name: {yaml}, about: {yaml}, needs: [{{any: 1, of: {{module: {yaml}}}}}]}}\n"),
            (
                "photos/p.yaml",
                $"- {{id: P-1, file: a.jpg, caption: {yaml}, shows: [F-1, {yaml}], regions: [{{box: [0, 0, 1, 1], note: {yaml}}}], redact: [{{box: [0, 0, 1, 1], why: {yaml}}}]}}\n"),
            (
                "events/e.yaml",
                $"- {{id: E-1, on: 2026-06-14, what: loaded, of: [F-1], to: {{hall: h, place: {yaml}}}, by: [hk], note: {yaml}}}\n"),
            (
                "stories/s.md",
                $"---\ntitle: {yaml}\n---\n# {inProse}\n\n{inProse}\n\n    {inProse}\n\n| a |\n|---|\n| `{inProse}` {inProse} |\n"),
        ];
    }

    // YAML 1.2, 5.7: any character can be written by its number.
    private static string Quoted(string text)
    {
        var quoted = new StringBuilder("\"");
        foreach (var letter in text)
        {
            if (letter is '"' or '\\') quoted.Append('\\').Append(letter);
            else if (letter is >= ' ' and <= '~') quoted.Append(letter);
            else quoted.Append(CultureInfo.InvariantCulture, $"\\u{(int)letter:x4}");
        }

        return quoted.Append('"').ToString();
    }
}
