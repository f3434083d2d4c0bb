// Draws the pictures that stand in for photos in the demo archive: one for each record in content/photos, beside it, and
// writes its checksum into the record. Run from the repository's root:
//     dotnet run --project tests/Archive.DemoPictures [content] [ids…]
using System.Globalization;
using System.Text.RegularExpressions;
using Archive.DemoPictures;

var content = args.Length > 0 ? args[0] : "content";
var demo = new Demo(content);
var studio = new Studio(demo);
long total = 0;
foreach (var shot in demo.Shots.Where(shot => args.Length < 2 || args.Skip(1).Contains(shot.Id)))
{
    var picture = Path.Combine(Path.GetDirectoryName(shot.File)!, shot.Picture);
    var sheet = studio.Draw(shot);
    var checksum = Developing.Develop(sheet, shot, picture);
    var record = File.ReadAllText(shot.File);
    File.WriteAllText(shot.File, Regex.Replace(record, "(?m)^sha256: .*$", $"sha256: {checksum}"));
    var size = new FileInfo(picture).Length;
    total += size;
    Console.WriteLine($"{shot.Id}  {size / 1024,4} kB  {Path.GetRelativePath(content, picture)}");
    // For whoever writes the record's regions.
    foreach (var (run, box) in studio.Labels(shot, sheet))
    {
        Console.WriteLine($"        {run} at [{string.Join(", ", box.Select(side => side.ToString("0.000", CultureInfo.InvariantCulture)))}]");
    }
}

Console.WriteLine($"{total / 1024} kB");
