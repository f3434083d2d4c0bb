using Archive.Diagnostics;
using Archive.Records;

namespace Archive.Wiring.Tests;

/// <summary>Records made outright, where writing and reading a file would say nothing more.</summary>
internal static class Made
{
    private static readonly SourceSpan Nowhere = new SourceText("made", "").Whole;

    public static Stated<T> Said<T>(T value) => new(value, Nowhere);

    public static Cable Cable(string id, params IEnumerable<string> liesOver) =>
        new() { Id = id, IdSpan = Nowhere, Span = Nowhere, Kind = Said("coax"), LiesOver = [.. liesOver.Select(Said)] };

    public static Frame Frame(string id) => new() { Id = id, IdSpan = Nowhere, Span = Nowhere, Name = Said(id) };

    public static CableEnd End(string frame) => new() { Span = Nowhere, At = Said(Address.Of(frame)) };

    public static AsFound Record(params IEnumerable<ArchiveRecord> records) => AsFound.From(new ArchiveStatement { Span = Nowhere }, [.. records]);
}
