using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;
public static class Split
{
    public static void Run(string root, string data)
    {
        foreach (var l in File.ReadAllLines(data + "/splits.txt"))
        {
            var p = l.Split('#')[0].Split(' ', StringSplitOptions.RemoveEmptyEntries); if (p.Length < 3) continue;
            var f = root + "/" + p[0]; if (!File.Exists(f)) { Console.WriteLine("no " + p[0]); continue; }
            var text = File.ReadAllText(f);
            var unit = (CompilationUnitSyntax)CSharpSyntaxTree.ParseText(text).GetRoot();
            var ns = unit.Members.OfType<BaseNamespaceDeclarationSyntax>().First();
            var names = p[2].Split(',').ToHashSet();
            var take = ns.Members.Where(m => m is BaseTypeDeclarationSyntax b && names.Contains(b.Identifier.Text)).ToList();
            if (take.Count != names.Count) Console.WriteLine($"{p[0]}: {take.Count} of {names.Count}");
            if (take.Count == 0) continue;
            var head = string.Concat(unit.Usings.Select(u => u.ToFullString())).Trim();
            var body = string.Join("\n\n", take.Select(t => t.ToFullString().Trim('\n')));
            File.WriteAllText(root + "/" + p[1], (head.Length > 0 ? head + "\n\n" : "") + $"namespace {ns.Name};\n\n" + body + "\n");
            foreach (var t in take.OrderByDescending(t => t.FullSpan.Start)) text = text.Remove(t.FullSpan.Start, t.FullSpan.Length);
            File.WriteAllText(f, System.Text.RegularExpressions.Regex.Replace(text, "\n{3,}", "\n\n").TrimEnd('\n') + "\n");
            Load.Run(root, "add", p[1]);
        }
    }
}
