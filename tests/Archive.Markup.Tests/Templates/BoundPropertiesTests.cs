using Archive.Markup.Templates;
using Scriban;
using Scriban.Parsing;
using Scriban.Runtime;
using Scriban.Runtime.Accessors;
using Xunit;

namespace Archive.Markup.Tests.Templates;

/// <summary>Bound getters give what the library's own reflection gives, name by name.</summary>
public sealed class BoundPropertiesTests
{
    private static readonly TemplateContext Context = new();

    [Theory]
    [InlineData("name")]
    [InlineData("long_name")]
    [InlineData("count")]
    [InlineData("is_large")]
    [InlineData("nothing")]
    [InlineData("inherited")]
    [InlineData("covered")]
    [InlineData("kept_in_field")]
    [InlineData("LongName")]
    [InlineData("hidden")]
    [InlineData("write_only")]
    [InlineData("shared")]
    [InlineData("no_such_name")]
    public void Reads_as_the_library_does(string member)
    {
        foreach (object target in new object[] { new Thing(), new Thing { Count = 9 }, new Value(3) })
        {
            var plain = new TypedObjectAccessor(target.GetType(), null, null, StandardMemberRenamer.Default);
            var bound = new BoundProperties(target.GetType(), plain);
            var isKnown = plain.TryGetValue(Context, default, target, member, out var expected);
            Assert.Equal(isKnown, bound.TryGetValue(Context, new SourceSpan(), target, member, out var found));
            Assert.Equal(expected, found);
        }
    }

#pragma warning disable CA1051, CA1822, SA1401 // Fields and members without state are what is tested.
    private class Ground
    {
        public string Inherited => "from the ground";

        public virtual string Covered => "ground";
    }

    private sealed class Thing : Ground
    {
        public readonly string KeptInField = "field";

        public static string Shared => "static";

        public string Name => "a thing";

        public string LongName => "a long name";

        public int Count { get; init; } = 4;

        public bool IsLarge => Count > 4;

        public string? Nothing => null;

        public override string Covered => "thing";

        public string WriteOnly
        {
            set => _ = value;
        }

        internal string Hidden => "internal";
    }
#pragma warning restore CA1051, CA1822, SA1401

    private readonly record struct Value(int Count);
}
