// Renders the pictures of the demo archive: one for each record in content/photos, beside it, and writes its checksum and the boxes of its
// regions into the record (write a region with any box; a photo taken after the survey shows the hall without what its events took away).
// It needs Blender 3.4 (Debian's package `blender`) on the PATH, about half a minute a picture on two cores, and 3 GB; neither CI nor
// `publish` needs either. Run from the repository's root:
//     dotnet run -c Release --project tests/Archive.DemoPictures [content] [ids…]
using Archive.DemoPictures;

var content = args.Length > 0 ? args[0] : "content";
var demo = new DemoArchive(content);
var studio = new Studio(demo);
var wear = new FrameWear(demo);
var script = Path.Combine(AppContext.BaseDirectory, "render.py");
foreach (var shot in demo.Shots.Where(shot => args.Length < 2 || args.Skip(1).Contains(shot.Id)))
{
    var clock = System.Diagnostics.Stopwatch.StartNew();
    var folder = Directory.CreateTempSubdirectory("rendering-").FullName;
    try
    {
        // Photos of the survey show the hall as found.
        var day = shot.Taken[..10];
        var scene = (shot.IsLater ? new Studio(new DemoArchive(content, day)) : studio).Set(shot);
        var light = Renderer.Trace(scene, (int)SeededRandom.For(shot.Id).Between(1, 1e6), script, folder);
        using var print = CameraSimulation.Print(scene, shot, light, wear);
        var picture = Path.Combine(Path.GetDirectoryName(shot.File)!, shot.Picture);
        var checksum = CameraFile.Develop(print, shot, picture);
        PhotoRecord.Update(shot, checksum, shot.Redacted ? [(null, WrittenSheet.Names(scene.Camera))] : studio.Regions(shot, scene.Camera));
        Console.WriteLine(
            $"{shot.Id}  {new FileInfo(picture).Length / 1024,4} kB  {clock.Elapsed.TotalSeconds,4:0} s  {Path.GetRelativePath(content, picture)}");
    }
    finally
    {
        Directory.Delete(folder, recursive: true);
    }
}
