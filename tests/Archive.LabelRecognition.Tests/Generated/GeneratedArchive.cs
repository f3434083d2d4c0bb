using System.Globalization;
using NetVips;

namespace Archive.LabelRecognition.Tests.Generated;

/// <summary>An archive whose photos are full of sleeves, to read and to review with <c>asfound read-labels</c>.</summary>
internal static class GeneratedArchive
{
    private const int LabelsOfPhoto = 40;

    /// <summary>Writes it, and what its photos say to <c>says.txt</c> beside the folder of records.</summary>
    /// <param name="folder">A new folder.</param>
    /// <param name="labels">Number of labels, about.</param>
    internal static void Write(string folder, int labels)
    {
        var family = LabelFamily.Sleeve;
        Write("content/archive.yaml", "title: Generated sleeves\n");
        Write("content/schemes/sleeve.yaml", $$"""
            - id: sleeve
              reads: '{{family.Pattern}}'
              means: ['R{row1}-{frame1}/S{shelf1}/J{port1}', 'R{row2}-{frame2}/S{shelf2}/J{port2}']
            """);
        Write("content/frames/frames.yaml", string.Join('\n', family.Ports.GroupBy(port => $"R{port[0]}-{port[1]}").Select(frame =>
            $"- {{id: {frame.Key}, name: Frame {frame.Key}, positions: [{string.Join(", ", frame.GroupBy(port => port[2]).Select(shelf =>
                $"{{id: S{shelf.Key}, ports: [{string.Join(", ", shelf.Select(port => "J" + port[3]).Distinct())}]}}"))}]}}")));
        var says = new List<string>();
        for (var photo = 1; photo <= (labels + LabelsOfPhoto - 1) / LabelsOfPhoto; photo++)
        {
            var wear = photo % 2 == 0 ? Wear.Medium : Wear.Mild;
            var scene = Scene.Draw(4000, 3000, LabelsOfPhoto, Typeface.Judged, wear, photo * 1000, family);
            using var image = Image.NewFromMemory(scene.Image.Pixels, 4000, 3000, 3, Enums.BandFormat.Uchar);
            Directory.CreateDirectory(Path.Combine(folder, "content/photos"));
            image.Jpegsave(Path.Combine(folder, $"content/photos/{photo}.jpg"), q: 90);
            says.AddRange(scene.Pasted.Select(one => string.Create(
                CultureInfo.InvariantCulture, $"P-{photo}\t{one.X / 4000:0.0000}\t{one.Y / 3000:0.0000}\t{one.Label.Label}")));
            Write($"content/photos/{photo}.yaml", $"- {{id: P-{photo}, file: {photo}.jpg, view: label}}\n");
        }

        Write("says.txt", string.Join('\n', says));

        void Write(string path, string text)
        {
            var file = Path.Combine(folder, path);
            Directory.CreateDirectory(Path.GetDirectoryName(file)!);
            File.WriteAllText(file, text);
        }
    }
}
