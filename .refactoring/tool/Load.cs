using System.Text.Json;
using System.Xml.Linq;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.Text;

public sealed record Proj(string Name, string Dir, string CsprojPath, List<string> Refs, List<string> Files, CSharpCompilation Comp, bool IsTest);

public static class Load
{
    const string Pack = "/usr/share/dotnet/packs/Microsoft.NETCore.App.Ref";
    public static List<Proj> All(string root)
    {
        var packDir = Directory.GetDirectories(Pack).OrderBy(x => x).Last();
        var fx = Directory.GetFiles(packDir + "/ref/net10.0", "*.dll").Select(p => (MetadataReference)MetadataReference.CreateFromFile(p)).ToList();
        var gens = new List<ISourceGenerator>();
        var csprojs = Directory.GetFiles(root + "/src", "*.csproj", SearchOption.AllDirectories)
            .Concat(Directory.GetFiles(root + "/tests", "*.csproj", SearchOption.AllDirectories)).OrderBy(x => x, StringComparer.Ordinal).ToList();
        var tracked = Run(root, "ls-files", "--cached", "--others", "--exclude-standard").Split('\n', StringSplitOptions.RemoveEmptyEntries).Where(f => f.EndsWith(".cs")).ToList();
        var docs = csprojs.ToDictionary(p => p, p => XDocument.Load(p));
        var done = new Dictionary<string, Proj>();
        var list = new List<Proj>();
        var metaCache = new Dictionary<string, MetadataReference>();
        void Visit(string p)
        {
            if (done.ContainsKey(p)) return;
            var dir = Path.GetDirectoryName(p)!;
            var refs = docs[p].Descendants("ProjectReference").Select(e => Path.GetFullPath(Path.Combine(dir, e.Attribute("Include")!.Value))).ToList();
            foreach (var r in refs) Visit(r);
            var name = Path.GetFileNameWithoutExtension(p);
            var rel = Path.GetRelativePath(root, dir) + "/";
            var isTest = rel.StartsWith("tests/");
            var files = tracked.Where(f => f.StartsWith(rel) && File.Exists(root + "/" + f)).OrderBy(f => f, StringComparer.Ordinal).ToList();
            foreach (var e in docs[p].Descendants("Compile")) { var inc = e.Attribute("Include")?.Value; if (inc != null) foreach (var g in Glob(dir, inc)) files.Add(Path.GetRelativePath(root, g)); }
            foreach (var e in docs[p].Descendants("Compile")) { var rm = e.Attribute("Remove")?.Value; if (rm != null) { var pre = Path.GetRelativePath(root, Path.GetFullPath(Path.Combine(dir, rm.Split('*')[0]))); files.RemoveAll(f => f.StartsWith(pre)); } }
            var parse = CSharpParseOptions.Default.WithLanguageVersion(LanguageVersion.Latest).WithDocumentationMode(DocumentationMode.Diagnose);
            var trees = files.Select(f => CSharpSyntaxTree.ParseText(SourceText.From(File.ReadAllText(root + "/" + f), System.Text.Encoding.UTF8), parse, f)).ToList();
            var implicitU = "System System.IO System.Linq System.Net.Http System.Threading System.Threading.Tasks System.Collections.Generic".Split(' ').ToList();
            var gsrc = string.Concat(implicitU.Select(u => $"global using {u};\n"));
            if (isTest && docs[p].Descendants("IsTestSuite").All(x => x.Value != "false")) gsrc += ""; 
            foreach (var ivt in docs[p].Descendants("InternalsVisibleTo")) gsrc += $"[assembly: System.Runtime.CompilerServices.InternalsVisibleTo(\"{ivt.Attribute("Include")!.Value}\")]\n";
            trees.Add(CSharpSyntaxTree.ParseText(SourceText.From(gsrc, System.Text.Encoding.UTF8), parse, "obj/" + name + ".g.cs"));
            var mrefs = new List<MetadataReference>(fx);
            var assets = dir + "/obj/project.assets.json";
            if (File.Exists(assets))
            {
                using var j = JsonDocument.Parse(File.ReadAllText(assets));
                var folders = j.RootElement.GetProperty("packageFolders").EnumerateObject().Select(x => x.Name).ToList();
                var target = j.RootElement.GetProperty("targets").EnumerateObject().First().Value;
                foreach (var lib in target.EnumerateObject())
                {
                    if (lib.Value.GetProperty("type").GetString() != "package" || !lib.Value.TryGetProperty("compile", out var c)) continue;
                    var path = j.RootElement.GetProperty("libraries").GetProperty(lib.Name).GetProperty("path").GetString()!;
                    foreach (var d in c.EnumerateObject())
                    {
                        if (!d.Name.EndsWith(".dll")) continue;
                        var full = folders.Select(f => Path.Combine(f, path, d.Name)).FirstOrDefault(File.Exists);
                        if (full == null) continue;
                        if (!metaCache.TryGetValue(full, out var m)) metaCache[full] = m = MetadataReference.CreateFromFile(full);
                        mrefs.Add(m);
                    }
                }
            }
            var all = new HashSet<string>(); void Coll(string q) { foreach (var r in done[q].Refs) if (all.Add(r)) Coll(r); }
            foreach (var r in refs) { all.Add(r); Coll(r); }
            foreach (var r in all) mrefs.Add(done[r].Comp.ToMetadataReference());
            var comp = CSharpCompilation.Create(name == "Archive.Cli" ? "asfound" : name, trees, mrefs,
                new CSharpCompilationOptions(docs[p].Descendants("OutputType").Any() || isTest ? OutputKind.ConsoleApplication : OutputKind.DynamicallyLinkedLibrary, nullableContextOptions: NullableContextOptions.Enable, allowUnsafe: true));
            var proj = new Proj(name, rel, p, refs, files, comp, isTest);
            done[p] = proj; list.Add(proj);
        }
        foreach (var p in csprojs) Visit(p);
        return list;
    }
    static IEnumerable<string> Glob(string dir, string inc)
    {
        foreach (var i in inc.Split(';'))
        {
            var full = Path.GetFullPath(Path.Combine(dir, i));
            if (!i.Contains('*')) { yield return full; continue; }
            var d = Path.GetDirectoryName(full)!.Replace("/**", "");
            foreach (var f in Directory.GetFiles(d, Path.GetFileName(full), i.Contains("**") ? SearchOption.AllDirectories : SearchOption.TopDirectoryOnly).OrderBy(x => x)) yield return f;
        }
    }
    public static string Run(string root, params string[] args)
    {
        var psi = new System.Diagnostics.ProcessStartInfo("git") { WorkingDirectory = root, RedirectStandardOutput = true };
        foreach (var a in args) psi.ArgumentList.Add(a);
        using var p = System.Diagnostics.Process.Start(psi)!; var s = p.StandardOutput.ReadToEnd(); p.WaitForExit(); return s;
    }
}
