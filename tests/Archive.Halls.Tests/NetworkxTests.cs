using System.Text.Json;
using Archive.Halls.Trays.Network;
using Archive.Records.Model;
using UnitsNet;
using Xunit;
using static Archive.Testing.RecordSketch;

namespace Archive.Halls.Tests;

/// <summary>
/// Ways against networkx 3.6.1, which found them on a lattice of points 50 mm apart: <c>Fixtures/routes.py</c> wrote
/// <c>Fixtures/routes.json</c>.
/// </summary>
public class NetworkxTests
{
    [Fact]
    public void Ways_through_sixty_halls_are_those_that_networkx_finds()
    {
        using var halls = JsonDocument.Parse(File.ReadAllBytes(Path.Combine(Folder.OfProject, "Fixtures", "routes.json")));
        var compared = 0;
        foreach (var hall in halls.RootElement.EnumerateArray())
        {
            var network = TrayNetwork.Create(hall.GetProperty("trays")
                .EnumerateArray()
                .Select((tray, i) => Tray($"T{i:00}", "h", [.. tray.GetProperty("path").EnumerateArray().Select(Point)]) with
                {
                    Height = Say(Length.FromMillimeters(tray.GetProperty("height").GetDouble())),
                }));
            var drops = hall.GetProperty("frames")
                .EnumerateArray()
                .Select(frame => network.Drops(Point(frame.GetProperty("middle")), frame.GetProperty("top").GetDouble()))
                .ToList();
            foreach (var way in hall.GetProperty("ways").EnumerateArray())
            {
                var (one, other) = (drops[way[0].GetInt32()], drops[way[1].GetInt32()]);
                var expected = way[2].ValueKind == JsonValueKind.Null ? double.PositiveInfinity : way[2].GetDouble();
                Assert.Equal(expected, network.Between(one, other), 6);
                Assert.Equal(expected, network.Between(other, one), 6);
                Assert.Equal(!double.IsInfinity(expected), network.Way(one, other) is not null);
                compared++;
            }
        }

        Assert.Equal(533, compared);
    }

    private static PlanPoint Point(JsonElement point) => new(point[0].GetDouble(), point[1].GetDouble());
}
