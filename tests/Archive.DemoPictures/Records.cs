using System.Globalization;
using YamlDotNet.RepresentationModel;

namespace Archive.DemoPictures;

/// <summary>One mapping of a YAML file, or one value of a list.</summary>
internal sealed record Record(YamlNode Node, string File)
{
    public string Value => ((YamlScalarNode)Node).Value ?? string.Empty;

    public bool Has(string key) => Node is YamlMappingNode map && map.Children.ContainsKey(key);

    /// <summary>A plain value, with or without its evidence.</summary>
    public string Text(string key) => Get(key) switch
    {
        YamlScalarNode plain => plain.Value ?? string.Empty,
        YamlMappingNode stated => ((YamlScalarNode)stated.Children["is"]).Value ?? string.Empty,
        _ => string.Empty,
    };

    public IReadOnlyList<string> Texts(string key) => [.. Items(key).Select(item => item.Value)];

    public IReadOnlyList<Record> Items(string key) =>
        Has(key) && Get(key) is YamlSequenceNode list ? [.. list.Children.Select(n => new Record(n, File))] : [];

    public IReadOnlyList<Point3> Points(string key) => [.. Items(key).Select(pair => ToPoint(pair.Node))];

    public Point3 Point(string key) => ToPoint(Get(key));

    public double Millimetres(string key)
    {
        var text = Text(key).Split(' ');
        return Records.Number(
            text[0]) * text[1] switch { "mm" => 1, "m" => 1000, "in" => 25.4, _ => throw new FormatException($"{File}: {key}: {text[1]}") };
    }

    /// <summary>The numbers of a size in millimetres: <c>660 x 560 x 2134 mm</c>.</summary>
    public double[] Size(string key) => [.. Text(key).Replace(" mm", "", StringComparison.Ordinal).Split(" x ").Select(Records.Number)];

    private YamlNode Get(string key) => ((YamlMappingNode)Node).Children[key];

    private static Point3 ToPoint(YamlNode node)
    {
        var pair = (YamlSequenceNode)node;
        return new Point3(Records.Number(((YamlScalarNode)pair[0]).Value!), Records.Number(((YamlScalarNode)pair[1]).Value!), 0);
    }
}

/// <summary>Reads the demo's folders. The demo is known to be well formed: what isn't, throws.</summary>
internal static class Records
{
    public static IEnumerable<Record> Read(string content, string folder)
    {
        foreach (var file in Files(content, folder, "*.yaml"))
        {
            var stream = new YamlStream();
            using var text = File.OpenText(file);
            stream.Load(text);
            foreach (var document in stream.Documents)
            {
                var records = document.RootNode is YamlSequenceNode list ? list.Children : [document.RootNode];
                foreach (var node in records) yield return new Record(node, file);
            }
        }
    }

    /// <summary>Rows of the demo's CSV files by column. Its cells hold commas only within double quotes.</summary>
    public static IEnumerable<Dictionary<string, string>> Csv(string content, string folder)
    {
        foreach (var file in Files(content, folder, "*.csv"))
        {
            var lines = File.ReadAllLines(file);
            var columns = Cells(lines[0]);
            foreach (var line in lines.Skip(1)) yield return columns.Zip(Cells(line)).ToDictionary(pair => pair.First, pair => pair.Second);
        }
    }

    public static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    public static int Whole(string text) => int.Parse(text, CultureInfo.InvariantCulture);

    private static IEnumerable<string> Files(string content, string folder, string pattern) =>
        Directory.EnumerateFiles(Path.Combine(content, folder), pattern, SearchOption.AllDirectories).Order(StringComparer.Ordinal);

    private static List<string> Cells(string line)
    {
        var cells = new List<string>();
        var start = 0;
        var quoted = false;
        for (var i = 0; i <= line.Length; i++)
        {
            if (i < line.Length && line[i] == '"') quoted = !quoted;
            if (i < line.Length && (quoted || line[i] != ',')) continue;
            cells.Add(line[start..i].Trim('"'));
            start = i + 1;
        }

        return cells;
    }
}
