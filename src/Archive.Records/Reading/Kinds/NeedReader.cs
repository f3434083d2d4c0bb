using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Reading.Format;
using Archive.Records.Reading.Syntax;
using Archive.Records.Reading.Values;

namespace Archive.Records.Reading.Kinds;

/// <summary>Reads what frames and displays need.</summary>
internal static class NeedReader
{
    /// <summary>A list of needs: frames, and <c>{any: 2, of: …}</c>.</summary>
    public static ImmutableArray<Need> Read(MappingReader from, FormatKey key) =>
        [.. from.Items(key.Name).Select(item => One(from, key.Name, item)).OfType<Need>()];

    private static Need? One(MappingReader from, string key, SyntaxNode node)
    {
        if (node is not MappingNode) return from.Single(node, key, ValueFormats.IdOf("frame")) is { } frame ? new FrameNeed(frame) : null;
        if (from.AsMapping(node, key, NeedFormat.All) is not { } need) return null;
        var any = need.Read(NeedFormat.Any);
        var (module, of) = ReadChoice(need);
        need.End();
        return any is { } count ? new AnyNeed(need.Span, count, module, of) : null;
    }

    private static (Stated<string>? Module, ImmutableArray<Need> Of) ReadChoice(MappingReader need)
    {
        if (need.Entry(NeedFormat.Of) is not { Value: MappingNode node }
            || node.Entries.Any(entry => entry.Key.Text == NeedFormat.Any.Name))
            return (null, Read(need, NeedFormat.Of));
        if (need.AsMapping(node, NeedFormat.Of.Name, NeedFormat.Module.All) is not { } choice) return (null, []);
        var module = choice.Read(NeedFormat.Module.Name);
        choice.End();
        return (module, []);
    }
}
