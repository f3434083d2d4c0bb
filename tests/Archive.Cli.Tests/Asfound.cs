using Archive.Cli.Output;
using Archive.Diagnostics.Rendering;
using Archive.Publishing.Caching;

namespace Archive.Cli.Tests;

/// <summary>A small archive in a folder of its own, and the command line run on it.</summary>
internal sealed class Asfound : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("asfound-").FullName;

    internal Asfound()
    {
        Write("content/archive.yaml", "title: Small station\n");
        Write("content/frames/r1.yaml", "- {id: R1-01, name: Receiver one, weight: 310 kg}\n- {id: R1-02, name: Receiver two}\n");
        Write("content/kinds/kinds.yaml", "- {id: coax-75, name: 75 ohm coaxial, family: coax}\n");
        Write("content/cables/c.yaml", "- {id: C-1, kind: coax-75, ends: [{at: R1-01}, {at: R1-02}]}\n");
    }

    /// <summary>Where this repository lies.</summary>
    internal static string Repository { get; } = Path.GetFullPath(Path.Combine(AppContext.BaseDirectory, "../../../../.."));

    internal string this[string below] => Path.Combine(_folder, below);

    /// <summary>Full path of the cache.</summary>
    internal string Cache => CacheFolder.Open(null, this["content"]).Folder;

    internal void Write(string path, string text)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(this[path])!);
        File.WriteAllText(this[path], text);
    }

    /// <summary>Writes a file in one step: a preview sees the old text or the new, never an empty file.</summary>
    internal void Replace(string path, string text)
    {
        Write("draft", text);
        File.Move(this["draft"], this[path], overwrite: true);
    }

    /// <summary>Runs a command on this archive: <c>--content</c> (and for a publication <c>--site</c>) is added.</summary>
    internal Task<Run> Run(string command, params string[] more) =>
        Typed([command, "--content", this["content"], .. command == "publish" ? ["--site", this["site"]] : Array.Empty<string>(), .. more]);

    /// <summary>Runs a command line as it is.</summary>
    internal static async Task<Run> Typed(params string[] args)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var code = await Program.Run(args, new Terminal(output, error, TextStyle.Plain, TextStyle.Plain, IsWatched: false));
        return new Run((int)code, output.ToString(), error.ToString());
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);
}

/// <summary>What came of a command line.</summary>
internal sealed record Run(int Code, string Out, string Error);
