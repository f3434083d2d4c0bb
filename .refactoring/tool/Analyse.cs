using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;
public static class Analyse
{
    public static void Run(List<Proj> projs, string root, string outDir)
    {
        Directory.CreateDirectory(outDir);
        var refs = new SortedDictionary<string, int>(StringComparer.Ordinal); // fileA \t typeFile \t type \t member
        var types = new List<string>(); var members = new List<string>();
        foreach (var p in projs) { var fs = p.Files.ToHashSet();
        foreach (var tree in p.Comp.SyntaxTrees)
        {
            if (!fs.Contains(tree.FilePath)) continue;
            var m = p.Comp.GetSemanticModel(tree);
            foreach (var d in tree.GetRoot().DescendantNodes())
            {
                if (d is BaseTypeDeclarationSyntax or DelegateDeclarationSyntax)
                {
                    var s = (INamedTypeSymbol)m.GetDeclaredSymbol(d)!;
                    types.Add($"{s.ToDisplayString()}\t{s.DeclaredAccessibility}\t{(s.IsStatic ? "static " : "")}{(s.IsRecord ? "record" : s.TypeKind.ToString().ToLower())}\t{tree.FilePath}\t{Doc(s)}");
                }
                if (d is MemberDeclarationSyntax md and not BaseTypeDeclarationSyntax and not BaseNamespaceDeclarationSyntax and not GlobalStatementSyntax)
                {
                    IEnumerable<SyntaxNode> ds = md is BaseFieldDeclarationSyntax f ? f.Declaration.Variables : [md];
                    foreach (var q in ds) { var s = m.GetDeclaredSymbol(q); if (s != null && !s.IsOverride) members.Add($"{s.ToDisplayString()}\t{s.DeclaredAccessibility}{(s.IsStatic ? " static" : "")} {s.Kind}\t{(s as IMethodSymbol)?.ReturnType.ToDisplayString(SymbolDisplayFormat.MinimallyQualifiedFormat)}\t{tree.FilePath}\t{Doc(s)}"); }
                }
                if (d is SimpleNameSyntax n)
                {
                    var s = m.GetSymbolInfo(n).Symbol; if (s == null) continue;
                    Add(s);
                    if (s is IMethodSymbol { ReducedFrom: not null } e) Add(e.ReducedFrom!);
                }
                else if (d is BaseObjectCreationExpressionSyntax o) { var s = m.GetSymbolInfo(o).Symbol; if (s != null) Add(s); }
                void Add(ISymbol s)
                {
                    s = s.OriginalDefinition;
                    var t = s as INamedTypeSymbol ?? s.ContainingType; if (t == null || s is ILocalSymbol or IParameterSymbol or ITypeParameterSymbol) return;
                    if (t.IsAnonymousType || t.TypeKind == TypeKind.Error) return;
                    var f = s.DeclaringSyntaxReferences.FirstOrDefault()?.SyntaxTree.FilePath ?? t.DeclaringSyntaxReferences.FirstOrDefault()?.SyntaxTree.FilePath;
                    if (f == null || !f.Contains("/") || f == tree.FilePath || !(f.StartsWith("src/") || f.StartsWith("tests/"))) return;
                    var k = $"{tree.FilePath}\t{f}\t{t.ToDisplayString()}\t{(s is INamedTypeSymbol ? "" : s.Name)}";
                    refs[k] = refs.GetValueOrDefault(k) + 1;
                }
            }
        }
        }
        File.WriteAllLines(outDir + "/refs.tsv", refs.Select(x => x.Key + "\t" + x.Value));
        File.WriteAllLines(outDir + "/types.tsv", types); File.WriteAllLines(outDir + "/members.tsv", members);
    }
    static string Doc(ISymbol s) { var x = s.GetDocumentationCommentXml() ?? ""; var t = System.Text.RegularExpressions.Regex.Match(x, "<summary>(.*?)</summary>", System.Text.RegularExpressions.RegexOptions.Singleline).Groups[1].Value; t = System.Text.RegularExpressions.Regex.Replace(t, "<[^>]*?cref=\"[A-Z]:([^\"]*)\"[^>]*>", m => m.Groups[1].Value.Split('.').Last()); return System.Text.RegularExpressions.Regex.Replace(t, @"\s+", " ").Trim(); }
}
