using System.Text;
using System.Text.RegularExpressions;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;
using Microsoft.CodeAnalysis.Text;

/// Moves files, sets namespaces, renames symbols, recomputes usings, opens what is used across projects. Inputs: DATA/moves.txt, DATA/renames.txt, DATA/csproj/*.
public static class Apply
{
    static List<(string From, string To)> rules = [];
    static Dictionary<string, string> renames = [];
    static HashSet<string> used = [];
    static readonly Dictionary<ISymbol, string?> newNames = new(SymbolEqualityComparer.Default);
    static Dictionary<string, string> newPath = [];
    static HashSet<string> problems = [];

    public static string? Target(string f)
    {
        foreach (var (a, b) in rules) if (f == a || (a.EndsWith('/') && f.StartsWith(a))) return b.EndsWith(".cs") ? b : b;
        return null;
    }
    public static string NewDir(string f)
    {
        var t = Target(f);
        var test = f.StartsWith("tests/");
        if (t == null) return Path.GetDirectoryName(f)!;
        return (test ? "tests/" : "src/") + t;
    }
    static string NsOf(string path)
    {
        var parts = path.Split('/'); // src/Archive.X/A/B/file.cs
        return string.Join('.', parts.Skip(1).Take(parts.Length - 2));
    }
    static string ProjOf(string path) => path.Split('/')[1];

    static string Key(ISymbol s)
    {
        s = s.OriginalDefinition;
        if (s is INamedTypeSymbol t) return t.ContainingType != null ? Key(t.ContainingType) + "." + t.Name : t.ContainingNamespace.ToDisplayString() + "." + t.Name;
        return s.ContainingType != null ? Key(s.ContainingType) + "." + s.Name : s.Name;
    }
    static string SigKey(ISymbol s) => Key(s) + (s is IMethodSymbol m ? "(" + string.Join(",", m.OriginalDefinition.Parameters.Select(p => p.Type.ToDisplayString(SymbolDisplayFormat.MinimallyQualifiedFormat))) + ")" : "");

    static string? NewName(ISymbol? s)
    {
        if (s == null) return null;
        s = s.OriginalDefinition;
        if (s is IMethodSymbol { ReducedFrom: { } r }) s = r.OriginalDefinition;
        if (newNames.TryGetValue(s, out var n)) return n;
        n = Find(s);
        newNames[s] = n;
        return n;
    }
    static string? Find(ISymbol s)
    {
        if (s is IMethodSymbol { MethodKind: MethodKind.Constructor or MethodKind.StaticConstructor or MethodKind.Destructor } c) return NewName(c.ContainingType);
        if (s is IParameterSymbol p && p.ContainingSymbol is IMethodSymbol { MethodKind: MethodKind.Constructor } ctor && ctor.ContainingType.IsRecord)
        {
            var prop = ctor.ContainingType.GetMembers(p.Name).OfType<IPropertySymbol>().FirstOrDefault();
            if (prop != null && prop.DeclaringSyntaxReferences.Any(d => d.GetSyntax() is ParameterSyntax)) return NewName(prop);
            return null;
        }
        if (s is not (INamedTypeSymbol or IMethodSymbol or IPropertySymbol or IFieldSymbol or IEventSymbol)) return null;
        if (s.DeclaringSyntaxReferences.Length == 0) return null;
        if (renames.Count == 0) return null;
        string? hit = null;
        if (renames.TryGetValue(SigKey(s), out hit)) { used.Add(SigKey(s)); return hit; }
        if (renames.TryGetValue(Key(s), out hit)) { used.Add(Key(s)); return hit; }
        ISymbol? over = (s as IMethodSymbol)?.OverriddenMethod ?? (ISymbol?)(s as IPropertySymbol)?.OverriddenProperty;
        if (over != null) return NewName(over);
        if (s is not INamedTypeSymbol && s.ContainingType is { TypeKind: TypeKind.Class or TypeKind.Struct } t)
        {
            foreach (var i in t.AllInterfaces)
                foreach (var im in i.GetMembers(s.Name))
                    if (SymbolEqualityComparer.Default.Equals(t.FindImplementationForInterfaceMember(im)?.OriginalDefinition, s)) { var x = NewName(im); if (x != null) return x; }
        }
        return null;
    }
    static string PathOf(ISymbol s) => s.OriginalDefinition.DeclaringSyntaxReferences.Select(r => r.SyntaxTree.FilePath).FirstOrDefault(f => newPath.ContainsKey(f)) ?? "";
    static INamedTypeSymbol? OurType(ISymbol? s)
    {
        if (s is IMethodSymbol { MethodKind: MethodKind.Constructor } c) s = c.ContainingType;
        return s is INamedTypeSymbol t && t.TypeKind != TypeKind.Error && PathOf(t) != "" ? t.OriginalDefinition : null;
    }
    static string NewNs(INamedTypeSymbol t) => NsOf(newPath[PathOf(t)]);
    static string TypeName(INamedTypeSymbol t) => NewName(t) ?? t.Name;

    public static void Run(List<Proj> projs, string root, string data, bool write)
    {
        foreach (var l in File.ReadAllLines(data + "/moves.txt"))
        {
            var p = l.Split('#')[0].Split(' ', StringSplitOptions.RemoveEmptyEntries);
            if (p.Length == 2) rules.Add((p[0], p[1]));
        }
        rules = [.. rules.OrderByDescending(r => r.From.Length).ThenBy(r => r.From, StringComparer.Ordinal)];
        foreach (var l in File.ReadAllLines(data + "/renames.txt"))
        {
            var p = l.Split('#')[0].Split(' ', StringSplitOptions.RemoveEmptyEntries);
            if (p.Length == 2) renames[p[0].StartsWith("Archive.") ? p[0] : "Archive." + p[0]] = p[1];
        }
        // 1. new paths
        var trees = new List<(Proj P, SyntaxTree T, SemanticModel M)>();
        var seen = new HashSet<string>();
        foreach (var p in projs)
        {
            var fs = p.Files.ToHashSet();
            foreach (var t in p.Comp.SyntaxTrees)
                if (fs.Contains(t.FilePath))
                {
                    if (!t.FilePath.StartsWith(p.Dir)) continue; // linked file: handled at home
                    trees.Add((p, t, p.Comp.GetSemanticModel(t)));
                }
        }
        foreach (var (p, t, m) in trees)
        {
            var name = Path.GetFileName(t.FilePath);
            var stem = name.Split('.')[0];
            foreach (var d in t.GetRoot().DescendantNodes().OfType<BaseTypeDeclarationSyntax>())
                if (d.Identifier.Text == stem && m.GetDeclaredSymbol(d) is { } s && NewName(s) is { } nn) { name = nn + name[stem.Length..]; break; }
            var dir = NewDir(t.FilePath);
            newPath[t.FilePath] = dir.EndsWith(".cs") ? dir : dir + "/" + name;
        }
        foreach (var g in newPath.GroupBy(x => x.Value).Where(g => g.Count() > 1)) problems.Add("two files at " + g.Key + ": " + string.Join(", ", g.Select(x => x.Key)));

        var testProjects = projs.Where(p => p.IsTest).Select(p => p.Name).ToHashSet();
        bool IsTestPath(string path) => path.StartsWith("tests/");

        // 2. what each namespace will hold
        var holds = new Dictionary<string, HashSet<string>>();
        var allTypes = new List<INamedTypeSymbol>();
        foreach (var (p, t, m) in trees)
            foreach (var d in t.GetRoot().DescendantNodes())
                if (d is BaseTypeDeclarationSyntax or DelegateDeclarationSyntax && m.GetDeclaredSymbol(d) is INamedTypeSymbol s)
                {
                    allTypes.Add(s);
                    if (s.ContainingType == null)
                    {
                        var ns = NsOf(newPath[t.FilePath]);
                        if (!holds.TryGetValue(ns, out var set)) holds[ns] = set = [];
                        if (!set.Add(TypeName(s)) && s.DeclaringSyntaxReferences.Length == 1 && s.Arity == 0) problems.Add($"{ns} has {TypeName(s)} twice ({t.FilePath})");
                    }
                }
        var childNs = new Dictionary<string, HashSet<string>>();
        foreach (var ns in holds.Keys)
        {
            var parts = ns.Split('.');
            for (var i = 1; i < parts.Length; i++) { var par = string.Join('.', parts.Take(i)); if (!childNs.TryGetValue(par, out var s)) childNs[par] = s = []; s.Add(parts[i]); }
        }

        // properties that the JSON generator names after types
        var generated = allTypes.Where(x => NewName(x) != null).GroupBy(x => x.Name).ToDictionary(g => g.Key, g => NewName(g.First())!);
        // 3. accessibility across projects
        var open = new HashSet<ISymbol>(SymbolEqualityComparer.Default);
        var ivt = new SortedSet<string>(StringComparer.Ordinal);
        bool IsInternal(ISymbol s) => s.DeclaredAccessibility is Accessibility.Internal or Accessibility.ProtectedOrInternal;
        void Use(ISymbol s, string fromPath)
        {
            s = s.OriginalDefinition;
            if (s is IMethodSymbol { ReducedFrom: { } r }) s = r.OriginalDefinition;
            if (s is IMethodSymbol { AssociatedSymbol: { } a }) s = a;
            var home = PathOf(s is INamedTypeSymbol ? s : s.ContainingType ?? s);
            if (home == "") return;
            var hp = ProjOf(newPath[home]); var fp = ProjOf(newPath[fromPath]);
            if (hp == fp) return;
            for (ISymbol? q = s; q is INamedTypeSymbol or IMethodSymbol or IPropertySymbol or IFieldSymbol; q = q.ContainingType)
                if (IsInternal(q))
                {
                    if (IsTestPath(newPath[fromPath])) ivt.Add(hp + " " + fp); else open.Add(q);
                }
        }

        var splitFiles = File.ReadAllLines(data + "/splits.txt").SelectMany(l => l.Split(' ').Take(2)).ToHashSet();
        var unneeded = new HashSet<(string, string)>();
        // 4. edits
        var output = new List<(string Old, string New, string Text)>();
        var edits = new Dictionary<string, List<TextChange>>();
        var needs = new Dictionary<string, SortedSet<string>>();
        foreach (var (p, t, m) in trees)
        {
            var rootNode = (CompilationUnitSyntax)t.GetRoot();
            var ch = edits[t.FilePath] = [];
            var need = needs[t.FilePath] = new SortedSet<string>(StringComparer.Ordinal);
            var myNs = NsOf(newPath[t.FilePath]);
            var handled = new HashSet<int>();
            var simple = new Dictionary<string, INamedTypeSymbol>();
            var nsDecl = rootNode.Members.OfType<BaseNamespaceDeclarationSyntax>().FirstOrDefault();
            var outside = false;
            void NeedType(INamedTypeSymbol ty, string simpleName, bool check)
            {
                if (outside && ty.ContainingType == null) { need.Add(NewNs(ty)); return; }
                while (ty.ContainingType != null) return;
                var ns = NewNs(ty);
                if (!(myNs == ns || myNs.StartsWith(ns + "."))) need.Add(ns);
                if (check) simple[simpleName] = ty;
            }
            foreach (var tok in rootNode.DescendantTokens(descendIntoTrivia: true))
            {
                if (!tok.IsKind(SyntaxKind.IdentifierToken) || tok.Parent == null) continue;
                if (!handled.Add(tok.SpanStart)) continue;
                var parent = tok.Parent;
                if (parent.Ancestors().Any(a => a is UsingDirectiveSyntax)) continue;
                if (parent.AncestorsAndSelf().Any(a => a is BaseNamespaceDeclarationSyntax n && n.Name.Span.Contains(tok.SpanStart))) continue;
                outside = nsDecl == null || tok.SpanStart < nsDecl.SpanStart;
                ISymbol? s = null;
                if (parent is SimpleNameSyntax name)
                {
                    var info = m.GetSymbolInfo(name);
                    s = info.Symbol ?? (info.CandidateSymbols.Length > 0 ? info.CandidateSymbols[0] : null);
                    if (s == null) { var g = m.GetMemberGroup(name); if (g.Length > 0) s = g[0]; }
                    if (s == null)
                    {
                        if (parent.Parent is MemberAccessExpressionSyntax { Expression: MemberAccessExpressionSyntax { Name.Identifier.Text: "Default" } } && generated.TryGetValue(tok.Text, out var gn)) ch.Add(new TextChange(tok.Span, gn));
                        continue;
                    }
                    if (s is INamespaceSymbol nsp)
                    {
                        // A qualification such as Records.Hall: dropped, the using does it.
                        if (!nsp.ToDisplayString().StartsWith("Archive")) continue;
                        SyntaxNode whole = name; 
                        while (whole.Parent is QualifiedNameSyntax or MemberAccessExpressionSyntax or QualifiedCrefSyntax or AliasQualifiedNameSyntax)
                        {
                            var par = whole.Parent;
                            SyntaxNode? right = par switch { QualifiedNameSyntax q => q.Right, MemberAccessExpressionSyntax q => q.Name, QualifiedCrefSyntax q => q.Member, _ => null };
                            if (right == null) break;
                            if (right.Span.Start == whole.Span.Start) { whole = par; continue; }
                            var rs = right is CrefSyntax ? m.GetSymbolInfo(par).Symbol ?? m.GetSymbolInfo(right).Symbol : m.GetSymbolInfo(right).Symbol;
                            if (rs is INamespaceSymbol) { whole = par; continue; }
                            // par.Left is the namespace, right the type
                            var start = whole.Span.Start; var end = right.Span.Start;
                            var rt = OurType(rs); var hides = rt != null && m.LookupSymbols(start, name: TypeName(rt)).Concat(m.LookupSymbols(start, name: rt.Name)).Any(x => x is not INamedTypeSymbol and not INamespaceSymbol);
                            if (!ch.Any(c => c.Span.Start == start)) ch.Add(new TextChange(TextSpan.FromBounds(start, end), hides ? NewNs(rt!) + "." : ""));
                            break;
                        }
                        continue;
                    }
                    if (s is IAliasSymbol) continue;
                    if (OurType(s) is { } ty && s is not IMethodSymbol { MethodKind: not MethodKind.Constructor })
                    {
                        var outer = parent.Parent;
                        var qualified = (outer is QualifiedNameSyntax q && q.Right == parent && m.GetSymbolInfo(q.Left).Symbol is INamedTypeSymbol) || (outer is MemberAccessExpressionSyntax ma && ma.Name == parent && m.GetSymbolInfo(ma.Expression).Symbol is INamedTypeSymbol);
                        if (!qualified && ty.ContainingType == null) NeedType(ty, TypeName(ty), true);
                    }
                    if (s is IMethodSymbol { IsExtensionMethod: true } ext && (ext.ReducedFrom != null) && OurType((ext.ReducedFrom).ContainingType) is { } et) NeedType(et, "", false);
                    Use(s, t.FilePath);
                }
                else
                {
                    s = parent switch
                    {
                        BaseTypeDeclarationSyntax or DelegateDeclarationSyntax or MethodDeclarationSyntax or PropertyDeclarationSyntax or ConstructorDeclarationSyntax or EnumMemberDeclarationSyntax or EventDeclarationSyntax or VariableDeclaratorSyntax or ParameterSyntax or DestructorDeclarationSyntax or LocalFunctionStatementSyntax
                            => m.GetDeclaredSymbol(parent),
                        _ => null,
                    };
                }
                if (NewName(s) is { } nn && nn != tok.Text && (tok.Text == s!.Name || s is IMethodSymbol { MethodKind: MethodKind.Constructor })) ch.Add(new TextChange(tok.Span, nn));
            }
            // implicit uses: constructors by new(...), members through patterns are names; base types are names
            foreach (var n in rootNode.DescendantNodes())
                if (n is ImplicitObjectCreationExpressionSyntax && m.GetSymbolInfo(n).Symbol is { } cs) Use(cs, t.FilePath);
                else if (n is BaseObjectCreationExpressionSyntax && m.GetSymbolInfo(n).Symbol is { } cs2) Use(cs2, t.FilePath);
                else if (n is PrimaryConstructorBaseTypeSyntax && m.GetSymbolInfo(n).Symbol is { } cs3) Use(cs3, t.FilePath);
                else if (n is ExpressionSyntax or VariableDesignationSyntax)
                {
                    // the type of an expression may be internal although it is not named: it must be reachable only if named; nothing to do
                }
            foreach (var nsd in rootNode.Members.OfType<BaseNamespaceDeclarationSyntax>())
                ch.Add(new TextChange(nsd.Name.Span, myNs));
            // usings
            foreach (var u in rootNode.Usings)
            {
                if (u.Name == null) continue;
                var sym = m.GetSymbolInfo(u.Name).Symbol;
                if (u.StaticKeyword != default || u.Alias != null)
                {
                    if (sym is INamedTypeSymbol ut && OurType(ut) is { } ot) ch.Add(new TextChange(u.Name.Span, NewNs(ot) + "." + TypeName(ot)));
                }
            }
            if (splitFiles.Contains(t.FilePath))
                foreach (var dg in m.GetDiagnostics().Where(x => x.Id == "CS8019"))
                    unneeded.Add((t.FilePath, (rootNode.FindNode(dg.Location.SourceSpan) as UsingDirectiveSyntax)?.Name?.ToString() ?? ""));
            // checks: hidden or ambiguous
            foreach (var (nm, ty) in simple)
            {
                var tns = NewNs(ty);
                var parts = myNs.Split('.');
                var found = false;
                for (var i = parts.Length; i >= 1 && !found; i--)
                {
                    var pre = string.Join('.', parts.Take(i));
                    if (pre == tns) { found = true; break; }
                    if (holds.TryGetValue(pre, out var h) && h.Contains(nm)) { problems.Add($"HIDDEN {nm} of {tns} by {pre}.{nm} in {t.FilePath}"); found = true; }
                    else if (childNs.TryGetValue(pre, out var c) && c.Contains(nm)) { problems.Add($"HIDDEN {nm} of {tns} by namespace {pre}.{nm} in {t.FilePath}"); found = true; }
                }
                if (!found)
                    foreach (var other in need.Where(o => o != tns && holds.TryGetValue(o, out var h) && h.Contains(nm))) problems.Add($"AMBIGUOUS {nm}: {tns} and {other} in {t.FilePath}");
            }
        }

        // accessibility closure
        var pub = new HashSet<ISymbol>(open, SymbolEqualityComparer.Default);
        bool Visible(INamedTypeSymbol ty) { for (var q = ty; q != null; q = q.ContainingType) if (!(q.DeclaredAccessibility == Accessibility.Public || pub.Contains(q))) return false; return true; }
        bool again = true;
        void Open(ITypeSymbol ty)
        {
            switch (ty)
            {
                case IArrayTypeSymbol a: Open(a.ElementType); return;
                case INamedTypeSymbol nt:
                    foreach (var x in nt.TypeArguments) Open(x);
                    for (var q = nt.OriginalDefinition; q != null; q = q.ContainingType) if (PathOf(q) != "" && IsInternal(q) && pub.Add(q)) again = true;
                    return;
            }
        }
        while (again)
        {
            again = false;
            foreach (var ty in allTypes.Where(x => PathOf(x).StartsWith("src/")))
            {
                if (!Visible(ty)) continue;
                if (ty.BaseType != null) Open(ty.BaseType);
                if (ty.TypeKind == TypeKind.Interface) foreach (var i in ty.Interfaces) Open(i);
                foreach (var tp in ty.TypeParameters) foreach (var c in tp.ConstraintTypes) Open(c);
                if (ty.DelegateInvokeMethod is { } dm) { Open(dm.ReturnType); foreach (var q in dm.Parameters) Open(q.Type); }
                foreach (var mem in ty.GetMembers())
                {
                    if (mem.IsImplicitlyDeclared && mem is not IMethodSymbol { MethodKind: MethodKind.Constructor }) continue;
                    if (mem is not IPropertySymbol { IsRequired: true } && !(mem.DeclaredAccessibility is Accessibility.Public or Accessibility.Protected or Accessibility.ProtectedOrInternal || pub.Contains(mem))) continue;
                    switch (mem)
                    {
                        case IMethodSymbol me: Open(me.ReturnType); foreach (var q in me.Parameters) Open(q.Type); foreach (var tp in me.TypeParameters) foreach (var c in tp.ConstraintTypes) Open(c); break;
                        case IPropertySymbol { IsRequired: true } rq when (IsInternal(rq) && pub.Add(rq)): again = true; break;
                        case IPropertySymbol pr: Open(pr.Type); foreach (var q in pr.Parameters) Open(q.Type); break;
                        case IFieldSymbol fi: Open(fi.Type); break;
                    }
                }
            }
            // overrides of opened members are opened too
            foreach (var ty in allTypes) foreach (var mem in ty.GetMembers())
            {
                ISymbol? over = (mem as IMethodSymbol)?.OverriddenMethod ?? (ISymbol?)(mem as IPropertySymbol)?.OverriddenProperty;
                if (over != null && mem is not IMethodSymbol { AssociatedSymbol: not null } && IsInternal(mem) && pub.Contains(over.OriginalDefinition) && pub.Add(mem)) again = true;
            }
        }
        var undocumented = new SortedSet<string>(StringComparer.Ordinal);
        foreach (var s in pub)
            foreach (var r in s.DeclaringSyntaxReferences)
            {
                if (!edits.TryGetValue(r.SyntaxTree.FilePath, out var ch)) continue;
                var node = r.GetSyntax();
                if (node is VariableDeclaratorSyntax) node = node.Parent!.Parent!;
                SyntaxTokenList mods = node switch { MemberDeclarationSyntax md => md.Modifiers, AccessorDeclarationSyntax ad => ad.Modifiers, _ => default };
                var tk = mods.FirstOrDefault(x => x.IsKind(SyntaxKind.InternalKeyword));
                if (tk != default) ch.Add(new TextChange(tk.Span, "public"));
            }
        // documentation of what is public now
        foreach (var ty in allTypes.Where(x => PathOf(x).StartsWith("src/") && Visible(x)))
        {
            var was = true; for (var q = ty; q != null; q = q.ContainingType) was &= q.DeclaredAccessibility == Accessibility.Public;
            foreach (var mem in ty.GetMembers().Append(ty))
            {
                if (mem.IsImplicitlyDeclared || mem is IMethodSymbol { AssociatedSymbol: not null }) continue;
                if (mem is not INamedTypeSymbol && !(mem.DeclaredAccessibility is Accessibility.Public or Accessibility.Protected || pub.Contains(mem))) continue;
                if (mem is INamedTypeSymbol && !SymbolEqualityComparer.Default.Equals(mem, ty)) continue;
                if (was && !pub.Contains(mem)) continue;
                var r = mem.DeclaringSyntaxReferences.FirstOrDefault(); if (r == null) continue;
                var node = r.GetSyntax();
                if (node is ParameterSyntax) continue;
                if (node is VariableDeclaratorSyntax) node = node.Parent!.Parent!;
                if (node.GetLeadingTrivia().Any(x => x.IsKind(SyntaxKind.SingleLineDocumentationCommentTrivia))) continue;
                if (!edits.TryGetValue(r.SyntaxTree.FilePath, out var ch)) continue;
                var isOver = mem.IsOverride || (mem is not INamedTypeSymbol && ty.AllInterfaces.SelectMany(i => i.GetMembers()).Any(i => SymbolEqualityComparer.Default.Equals(ty.FindImplementationForInterfaceMember(i), mem)));
                if (isOver)
                {
                    var text = r.SyntaxTree.GetText(); var line = text.Lines.GetLineFromPosition(node.GetFirstToken().SpanStart);
                    if (true) continue;
                    var indent = new string(' ', node.GetFirstToken().SpanStart - line.Start);
                    ch.Add(new TextChange(new TextSpan(node.GetFirstToken().SpanStart, 0), "/// <inheritdoc/>\n" + indent));
                }
                else undocumented.Add($"{r.SyntaxTree.FilePath}: {mem.ToDisplayString()}");
            }
        }

        foreach (var (p, t, m) in trees)
        {
            var text = t.GetText();
            var ch = edits[t.FilePath];
            var distinct = ch.GroupBy(c => c.Span.Start + ":" + c.Span.Length).Select(g => g.First()).OrderBy(c => c.Span.Start).ThenBy(c => c.Span.Length).ToList();
            for (var i = 1; i < distinct.Count; i++) if (distinct[i].Span.Start < distinct[i - 1].Span.End) { problems.Add($"overlap in {t.FilePath} at {distinct[i].Span}"); distinct.RemoveAt(i--); }
            var result = text.WithChanges(distinct).ToString();
            output.Add((t.FilePath, newPath[t.FilePath], Usings(result, needs[t.FilePath], n => unneeded.Contains((t.FilePath, n)))));
        }

        foreach (var l in renames.Keys.Except(used).Order(StringComparer.Ordinal)) problems.Add("RENAME NOT FOUND " + l);
        var report = new StringBuilder();
        foreach (var l in problems.Order(StringComparer.Ordinal)) report.AppendLine(l);
        report.AppendLine("--- opened"); foreach (var s in pub.Select(x => x.ToDisplayString()).Order(StringComparer.Ordinal)) report.AppendLine(s);
        report.AppendLine("--- undocumented"); foreach (var s in undocumented) report.AppendLine(s);
        report.AppendLine("--- ivt"); foreach (var s in ivt) report.AppendLine(s);
        File.WriteAllText(data + "/report.txt", report.ToString());
        Console.WriteLine($"problems {problems.Count}, opened {pub.Count}, undocumented {undocumented.Count}");
        if (!write) return;

        // other files (resources, pages, tests' data) move with their folders
        var tracked = Load.Run(root, "ls-files", "src", "tests").Split('\n', StringSplitOptions.RemoveEmptyEntries);
        foreach (var f in tracked.Where(f => !newPath.ContainsKey(f) && !f.EndsWith(".csproj") && !f.EndsWith(".cs")))
        {
            var nd = NewDir(f); if (nd.EndsWith(".cs")) continue;
            // keep what lies below a folder rule
            var rule = rules.FirstOrDefault(r => f == r.From || (r.From.EndsWith('/') && f.StartsWith(r.From)));
            if (rule.From == null) continue;
            var rest = rule.From.EndsWith('/') ? f[rule.From.Length..] : Path.GetFileName(f);
            var dest = (f.StartsWith("tests/") ? "tests/" : "src/") + rule.To + "/" + rest;
            if (dest != f) Move(root, f, dest);
        }
        foreach (var (o, n, text) in output)
        {
            if (o != n) Move(root, o, n);
            File.WriteAllText(root + "/" + n, text, new UTF8Encoding(false));
        }
    }
    static void Move(string root, string a, string b)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(root + "/" + b)!);
        Load.Run(root, "mv", "-f", a, b);
    }

    static string Usings(string text, SortedSet<string> need, Func<string, bool> unneeded)
    {
        var lines = text.Split('\n').ToList();
        var plain = new List<string>(); var others = new List<string>();
        int i = 0; var head = new List<string>();
        while (i < lines.Count && (lines[i].StartsWith("//") || lines[i].Length == 0 && head.Count > 0 || lines[i].StartsWith('#'))) { head.Add(lines[i]); i++; }
        var start = i;
        while (i < lines.Count && (lines[i].StartsWith("using ") || lines[i].Length == 0))
        {
            var l = lines[i].TrimEnd();
            if (l.StartsWith("using static ") || (l.StartsWith("using ") && l.Contains(" = "))) others.Add(l);
            else if (l.StartsWith("using ")) { var n = l[6..].TrimEnd(';').Trim(); if (!n.StartsWith("Archive.") && !unneeded(n)) plain.Add(n); }
            i++;
        }
        plain.AddRange(need);
        plain = [.. plain.Distinct().OrderBy(n => n == "System" || n.StartsWith("System.") ? 0 : 1).ThenBy(n => n, StringComparer.OrdinalIgnoreCase)];
        var res = new List<string>(head);
        res.AddRange(plain.Select(n => $"using {n};"));
        res.AddRange(others);
        if (plain.Count + others.Count > 0) res.Add("");
        res.AddRange(lines.Skip(i));
        return string.Join('\n', res);
    }
}
