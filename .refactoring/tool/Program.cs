using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;
var root = args[1];
if (args[0] == "split") { Split.Run(root, args[2]); return; }
var projs = Load.All(root);
switch (args[0])
{
    case "errors":
        foreach (var p in projs) { var d = p.Comp.GetDiagnostics().Where(x => x.Severity == DiagnosticSeverity.Error && x.Id is not ("CS8795" or "CS5001")).ToList(); Console.WriteLine($"{p.Name}: {d.Count}"); foreach (var x in d) Console.WriteLine("   " + x); }
        break;
    case "unused":
    {
        var n = 0;
        foreach (var p in projs)
            foreach (var t in p.Comp.SyntaxTrees.Where(t => p.Files.Contains(t.FilePath) && t.FilePath.StartsWith(p.Dir)))
            {
                var lines = p.Comp.GetSemanticModel(t).GetDiagnostics().Where(d => d.Id == "CS8019").Select(d => d.Location.GetLineSpan().StartLinePosition.Line).ToHashSet();
                if (lines.Count == 0) continue;
                n += lines.Count;
                var text = File.ReadAllLines(root + "/" + t.FilePath).Where((_, i) => !lines.Contains(i)).ToList();
                while (text.Count > 0 && text[0].Length == 0) text.RemoveAt(0);
                File.WriteAllText(root + "/" + t.FilePath, string.Join('\n', text) + "\n");
                Console.WriteLine($"{t.FilePath}: {lines.Count}");
            }
        Console.WriteLine(n);
        break;
    }
    case "analyse": Analyse.Run(projs, root, args[2]); break;
    case "apply": Apply.Run(projs, root, args[2], args.Length > 3); break;
}
