using Archive.Records.Model;

namespace Archive.Records.Checks;

/// <summary>How errors speak of records.</summary>
internal static class RecordPhrases
{
    /// <summary>A noun with its article: <c>a tray</c>, <c>an event</c>.</summary>
    public static string One(string noun) => ("aeiou".Contains(noun[0], StringComparison.Ordinal) ? "an " : "a ") + noun;

    /// <summary>One record of a kind: <c>a tray</c>, <c>an event</c>.</summary>
    public static string One(RecordKind kind) => One(kind.Noun());
}
