namespace Archive.Drawings.Svg;

/// <summary>What the ids of a row have in common, so that a small box need carry only the rest.</summary>
internal static class IdSuffixes
{
    /// <summary>The beginning that all ids share, up to a mark or to where their last number begins; empty where there is none.</summary>
    /// <param name="ids">Ids of frames that stand together.</param>
    internal static string Head(IReadOnlyList<string> ids)
    {
        if (ids.Count < 2) return string.Empty;
        var length = ids.Min(id => id.Length) - 1;
        while (length > 0 && !ids.All(id => id.AsSpan(0, length).SequenceEqual(ids[0].AsSpan(0, length)))) length--;
        while (length > 0 && !ids.All(id => IsJoint(id, length))) length--;
        return ids[0][..length];
    }

    private static bool IsJoint(string id, int at) =>
        !char.IsAsciiLetterOrDigit(id[at - 1]) || (char.IsAsciiDigit(id[at]) && !char.IsAsciiDigit(id[at - 1]));
}
