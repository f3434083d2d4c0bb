using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Reading.Syntax;
using Archive.Records.Reading.Values;

namespace Archive.Records.Reading.Kinds;

/// <summary>Reads what frames and displays need.</summary>
internal static class NeedReader
{
    /// <summary>A list of needs: frames, and <c>{any: 2, of: …}</c>.</summary>
    public static ImmutableArray<Need> Read(MappingReader from, string key) =>
        [.. from.Items(key).Select(item => One(from, key, item)).OfType<Need>()];

    private static Need? One(MappingReader from, string key, SyntaxNode node)
    {
        if (node is not MappingNode) return from.Single<string>(node, key, ScalarValues.Text) is { } frame ? new FrameNeed(frame) : null;
        if (from.AsMapping(node, key, "need") is not { } need) return null;
        var any = need.Fact<int>("any", ScalarValues.CountFromOne);
        var (module, of) = ReadChoice(need);
        need.Require("any", "of");
        need.End();
        return any is { } count ? new AnyNeed(need.Span, count, module, of) : null;
    }

    private static (Stated<string>? Module, ImmutableArray<Need> Of) ReadChoice(MappingReader need)
    {
        if (need.Entry("of") is not { Value: MappingNode node } || node.Entries.Any(entry => entry.Key.Text == "any"))
            return (null, Read(need, "of"));
        if (need.AsMapping(node, "of", "choice") is not { } choice) return (null, []);
        var module = choice.Fact<string>("module", ScalarValues.Text);
        choice.Require("module");
        choice.End();
        return (module, []);
    }
}
