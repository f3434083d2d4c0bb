using Archive.Diagnostics;
using Archive.Records.Model;
using Archive.Records.Terms;
using UnitsNet;

namespace Archive.Wiring.Tests;

/// <summary>Records made outright, where writing and reading a file would say nothing more.</summary>
internal static class Made
{
    private static readonly SourceSpan Nowhere = new SourceText("made", "").Whole;

    public static Stated<T> Said<T>(T value) => new(value, Nowhere);

    public static Cable Cable(string id, params IEnumerable<string> liesOver) =>
        new() { Id = id, IdSpan = Nowhere, Span = Nowhere, Kind = Said("coax"), LiesOver = [.. liesOver.Select(Said)] };

    public static CableKind Kind(string id, CableFamily family) =>
        new() { Id = id, IdSpan = Nowhere, Span = Nowhere, Name = Said(id), Family = Said(family) };

    public static Frame Frame(string id, params IEnumerable<Need> needs) =>
        new() { Id = id, IdSpan = Nowhere, Span = Nowhere, Name = Said(id), Needs = [.. needs] };

    public static Stated<Mass> Kilograms(double kilograms) => Said(Mass.FromKilograms(kilograms));

    public static Display Display(string id, params IEnumerable<Need> needs) =>
        new() { Id = id, IdSpan = Nowhere, Span = Nowhere, Needs = [.. needs] };

    public static Need Needs(string frame) => new FrameNeed(Said(frame));

    public static Need Any(int any, params IEnumerable<Need> of) => new AnyNeed(Nowhere, Said(any), null, [.. of]);

    public static Need AnyOf(int any, string module) => new AnyNeed(Nowhere, Said(any), Said(module), []);

    public static CableEnd End(string frame) => new() { Span = Nowhere, At = Said(Address.Create(frame)) };

    public static ArchiveModel Record(params IEnumerable<ArchiveRecord> records) =>
        ArchiveModel.From(new ArchiveStatement { Span = Nowhere }, [.. records]);
}
