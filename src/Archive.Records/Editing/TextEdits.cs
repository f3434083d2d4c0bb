using System.Text;

namespace Archive.Records.Editing;

/// <summary>Replacements in a text, made all at once. Everything between them stays as it is.</summary>
internal sealed class TextEdits(string text)
{
    private readonly List<(int Start, int Length, string Text)> _edits = [];

    public int Count => _edits.Count;

    /// <summary>Replaces a stretch; of two at one place the earlier comes first.</summary>
    public void Replace(int start, int length, string by) => _edits.Add((start, length, by));

    public void Insert(int at, string added) => Replace(at, 0, added);

    /// <summary>Takes back the edits made since there were so many.</summary>
    public void BackTo(int count) => _edits.RemoveRange(count, _edits.Count - count);

    /// <summary>The text with all replacements.</summary>
    /// <returns>Null if two of them touch the same letters.</returns>
    public string? Apply()
    {
        var made = new StringBuilder(text.Length + _edits.Sum(edit => edit.Text.Length));
        var at = 0;
        foreach (var (start, length, by) in _edits.OrderBy(edit => edit.Start))
        {
            if (start < at) return null;
            made.Append(text, at, start - at).Append(by);
            at = start + length;
        }

        return made.Append(text, at, text.Length - at).ToString();
    }
}
