using System.Reflection;
using Xunit;

namespace Archive.House.Tests;

/// <summary>Dependencies point one way, siblings do not know each other, and each room tells its story.</summary>
public class RoomTests
{
    private static readonly Dictionary<string, string[]> MayKnow = new(StringComparer.Ordinal)
    {
        ["Archive.Diagnostics"] = [],
        ["Archive.Records"] = ["Archive.Diagnostics"],
        ["Archive.Wiring"] = ["Archive.Diagnostics", "Archive.Records"],
        ["Archive.Hall"] = ["Archive.Diagnostics", "Archive.Records"],
        ["Archive.Photos"] = ["Archive.Diagnostics"],
        ["Archive.Site"] = ["Archive.Diagnostics", "Archive.Records", "Archive.Wiring", "Archive.Hall", "Archive.Photos"],
        ["Archive.Preservation"] = ["Archive.Diagnostics", "Archive.Records", "Archive.Site"],
        ["Archive.Cli"] = ["Archive.Diagnostics", "Archive.Records", "Archive.Wiring", "Archive.Hall", "Archive.Photos", "Archive.Site", "Archive.Preservation"],
    };

    // The libraries that a room keeps to itself, so that their exceptions and habits stay there.
    private static readonly Dictionary<string, string> Keeper = new(StringComparer.Ordinal)
    {
        ["YamlDotNet"] = "Archive.Records",
        ["CsvHelper"] = "Archive.Records",
        ["NetVips"] = "Archive.Photos",
        ["MetadataExtractor"] = "Archive.Photos",
        ["zxing"] = "Archive.Photos",
        ["Scriban.Signed"] = "Archive.Site",
        ["Lucene.Net"] = "Archive.Site",
        ["QRCoder"] = "Archive.Site",
        ["System.CommandLine"] = "Archive.Cli",
        ["Spectre.Console"] = "Archive.Cli",
    };

    public static TheoryData<string> Rooms => [.. House.Rooms];

    [Fact]
    public void Every_room_has_its_place_in_the_order() => Assert.Equal(MayKnow.Keys.Order(StringComparer.Ordinal), House.Rooms);

    [Theory]
    [MemberData(nameof(Rooms))]
    public void A_room_knows_only_rooms_before_it(string room)
    {
        var known = References(room).Where(name => name.StartsWith("Archive.", StringComparison.Ordinal));
        Assert.Empty(known.Except(MayKnow[room]));
    }

    [Theory]
    [MemberData(nameof(Rooms))]
    public void A_library_stays_in_the_room_that_keeps_it(string room)
    {
        var strangers = References(room).Where(name => Keeper.TryGetValue(name, out var keeper) && keeper != room);
        Assert.Empty(strangers);
    }

    [Theory]
    [MemberData(nameof(Rooms))]
    public void A_rooms_first_file_tells_its_story(string room)
    {
        var story = File.ReadAllText(Path.Combine(House.Root, "src", room, "Room.cs"));
        Assert.Contains($"namespace {room};", story, StringComparison.Ordinal);
        Assert.Contains("<summary>", story, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Rooms))]
    public void A_room_has_one_namespace(string room)
    {
        var strangers = AssemblyOf(room).GetTypes()
            .Where(type => type.Namespace is { } name && name.StartsWith("Archive", StringComparison.Ordinal) && name != room)
            .Select(type => type.FullName);
        Assert.Empty(strangers);
    }

    internal static Assembly AssemblyOf(string room) => Assembly.Load(room == "Archive.Cli" ? "asfound" : room);

    private static IEnumerable<string> References(string room) => AssemblyOf(room).GetReferencedAssemblies().Select(reference => reference.Name!);
}
