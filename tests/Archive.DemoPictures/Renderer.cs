using System.Diagnostics;
using System.Runtime.InteropServices;
using System.Text.Json;

namespace Archive.DemoPictures;

/// <summary>Hands a scene to the renderer and takes its light back.</summary>
internal static class Renderer
{
    /// <summary>Renders in a folder that is there, and returns the light, smaller than the picture.</summary>
    public static Layers Trace(Scene scene, int seed, string script, string folder)
    {
        Write(scene, seed, folder);
        var start = new ProcessStartInfo("blender", ["-b", "--factory-startup", "-noaudio", "-P", script, "--", folder])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true
        };
        using var blender = Process.Start(start) ?? throw new InvalidOperationException("blender did not start");
        var errors = blender.StandardError.ReadToEndAsync();
        var says = blender.StandardOutput.ReadToEnd();
        blender.WaitForExit();
        var light = Path.Combine(folder, "light.exr");
        if (!File.Exists(light)) throw new InvalidOperationException($"blender rendered nothing:\n{says}\n{errors.Result}");
        return Layers.Read(light);
    }

    private static void Write(Scene scene, int seed, string folder)
    {
        var meshes = new List<object>();
        foreach (var (seen, part) in new[] { (true, scene.Model.Meshes), (false, scene.Model.Unseen) })
        {
            // Print neither takes light away nor throws it elsewhere.
            foreach (var (stuff, mesh) in part.Where(pair => pair.Key != Material.Print))
            {
                var file = $"{(seen ? "seen" : "unseen")}-{stuff}.bin";
                using var stream = File.Create(Path.Combine(folder, file));
                stream.Write(MemoryMarshal.AsBytes(CollectionsMarshal.AsSpan(mesh.Points)));
                stream.Write(MemoryMarshal.AsBytes(CollectionsMarshal.AsSpan(mesh.Colours)));
                stream.Write(MemoryMarshal.AsBytes(CollectionsMarshal.AsSpan(mesh.Corners)));
                stream.Write(MemoryMarshal.AsBytes(CollectionsMarshal.AsSpan(mesh.Starts)));
                stream.Write(CollectionsMarshal.AsSpan(mesh.Round));
                meshes.Add(new
                {
                    file,
                    stuff = stuff.ToString(),
                    seen,
                    points = mesh.Points.Count / 3,
                    corners = mesh.Corners.Count,
                    faces = mesh.Starts.Count
                });
            }
        }

        var camera = scene.Camera;
        var (w, h) = (camera.Frame.Width, camera.Frame.Height);
        var smaller = Math.Sqrt(w * (double)h / scene.LightPixels);
        var told = new
        {
            width = w,
            height = h,
            seen = new[] { (int)(w / smaller), (int)(h / smaller) },
            seed,
            air = scene.Air,
            camera = new
            {
                eye = Three(camera.Eye),
                right = Three(camera.Right),
                above = Three(camera.Above),
                ahead = Three(camera.Ahead),
                focal = camera.Focal,
                x = camera.Centre.X,
                y = camera.Centre.Y
            },
            lamps = scene.Lamps.Select(l => new
            {
                at = Three(l.At),
                toward = Three(l.Toward),
                wide = l.Wide,
                high = l.High,
                watts = l.Watts,
                colour = Model.Linear(l.Colour)
            }),
            meshes,
        };
        File.WriteAllText(Path.Combine(folder, "scene.json"), JsonSerializer.Serialize(told));
    }

    private static double[] Three(Point3 p) => [p.X, p.Y, p.Z];
}
