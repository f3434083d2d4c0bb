using System.Text;

namespace Archive.DemoPictures;

/// <summary>
/// What the renderer wrote: planes of numbers, one for each channel of each pass. Reads OpenEXR as its file layout has it
/// (single part, scan lines, no compression), which is what the script asks for.
/// </summary>
internal sealed class Layers
{
    private readonly Dictionary<string, float[]> _planes = [];

    private Layers(int width, int height) => (Width, Height) = (width, height);

    public int Width { get; }

    public int Height { get; }

    /// <summary>A plane by pass and channel: <c>DiffCol.R</c>.</summary>
    public float[] this[string name] => _planes[name];

    public static Layers Read(string path)
    {
        using var file = new BinaryReader(File.OpenRead(path), Encoding.ASCII);
        if (file.ReadInt32() != 20000630) throw new FormatException($"{path} is no OpenEXR");
        file.ReadInt32();
        var (channels, layers) = Header(file);
        file.BaseStream.Seek(8L * layers.Height, SeekOrigin.Current);
        foreach (var (name, _) in channels) layers._planes[Short(name)] = new float[layers.Width * layers.Height];
        for (var line = 0; line < layers.Height; line++)
        {
            var y = file.ReadInt32();
            var bytes = file.ReadBytes(file.ReadInt32()).AsSpan();
            foreach (var (name, type) in channels)
            {
                var row = layers._planes[Short(name)].AsSpan(y * layers.Width, layers.Width);
                for (var x = 0; x < row.Length; x++)
                    row[x] = type == 1 ? (float)BitConverter.ToHalf(bytes[(x * 2)..]) : BitConverter.ToSingle(bytes[(x * 4)..]);
                bytes = bytes[(row.Length * (type == 1 ? 2 : 4))..];
            }
        }

        return layers;
    }

    private static (List<(string Name, int Type)> Channels, Layers Layers) Header(BinaryReader file)
    {
        var channels = new List<(string, int)>();
        Layers? layers = null;
        while (Word(file) is { Length: > 0 } name)
        {
            Word(file);
            var end = file.ReadInt32() + file.BaseStream.Position;
            if (name == "channels")
            {
                while (Word(file) is { Length: > 0 } channel)
                {
                    channels.Add((channel, file.ReadInt32()));
                    file.BaseStream.Seek(12, SeekOrigin.Current);
                }
            }
            else if (name == "compression" && file.ReadByte() != 0)
            {
                throw new FormatException("the rendering is compressed");
            }
            else if (name == "dataWindow")
            {
                var (left, top, right, bottom) = (file.ReadInt32(), file.ReadInt32(), file.ReadInt32(), file.ReadInt32());
                layers = new Layers(right - left + 1, bottom - top + 1);
            }

            file.BaseStream.Position = end;
        }

        return (channels, layers ?? throw new FormatException("the rendering has no size"));
    }

    /// <summary>Pass and channel of a name such as <c>ViewLayer.DiffCol.R</c>.</summary>
    private static string Short(string name) => string.Join('.', name.Split('.')[^2..]);

    private static string Word(BinaryReader file)
    {
        var word = new StringBuilder();
        for (var c = file.ReadByte(); c != 0; c = file.ReadByte()) word.Append((char)c);
        return word.ToString();
    }
}
