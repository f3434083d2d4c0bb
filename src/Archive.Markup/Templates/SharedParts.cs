using System.Collections.Concurrent;
using System.Runtime.CompilerServices;
using System.Text;
using Archive.Markup.Text;
using Scriban.Syntax;

namespace Archive.Markup.Templates;

/// <summary>
/// The parts of a theme that read nothing but <c>site</c>: the head and foot of pages. They are the same on all pages of one depth, and are
/// rendered once for them all.
/// </summary>
internal sealed class SharedParts(Theme theme)
{
    private readonly ConcurrentDictionary<string, bool> _isShared = new(StringComparer.Ordinal);
    private readonly ConditionalWeakTable<object, ConcurrentDictionary<string, HtmlFragment>> _rendered = [];

    /// <summary>A part as it is on all pages that share a view of the site.</summary>
    /// <param name="name">The part's template, included without values.</param>
    /// <param name="site">What it sees as <c>site</c>.</param>
    /// <returns>The part; null where it reads anything else.</returns>
    public HtmlFragment? TryRender(string name, object site) =>
        _isShared.GetOrAdd(name, name => IsShared(name, []))
            ? _rendered.GetOrCreateValue(site).GetOrAdd(name, name => Render(name, site))
            : null;

    private HtmlFragment Render(string name, object site)
    {
        var output = new PageOutput();
        new PageContext(theme) { UsesCode = false }.Render(name, output, site, null);
        var part = output.Finish();
        var markup = new HtmlFragment(Encoding.UTF8.GetString(part.Bytes.Span));
        part.GiveBack();
        return markup;
    }

    private bool IsShared(string name, HashSet<string> within)
    {
        if (theme.TemplateNamed(name)?.Page is not { } page || !within.Add(name)) return false;
        var names = new NamesRead();
        names.Visit(page);
        return names.AreOfSite && names.Included.TrueForAll(part => IsShared(part, [.. within]));
    }

    // Gathers what a template reads, and which parts it includes.
    private sealed class NamesRead : ScriptVisitor
    {
        private readonly HashSet<string> _known = new(StringComparer.Ordinal) { "site", "include", "string", "array", "for" };

        public bool AreOfSite { get; private set; } = true;

        public List<string> Included { get; } = [];

        public override void Visit(ScriptVariableGlobal node) => AreOfSite &= _known.Contains(node.Name);

        public override void Visit(ScriptVariableLocal node) => AreOfSite = false;

        public override void Visit(ScriptAssignExpression node) => AreOfSite = false;

        public override void Visit(ScriptMemberExpression node) => node.Target?.Accept(this);

        public override void Visit(ScriptForStatement node)
        {
            if (node.Variable is ScriptVariableGlobal one) _known.Add(one.Name);
            base.Visit(node);
        }

        public override void Visit(ScriptFunctionCall node)
        {
            if (node.Target is not ScriptVariableGlobal { Name: "include" }) base.Visit(node);
            else if (node.Arguments is [ScriptLiteral { Value: string part }]) Included.Add(part);
            else AreOfSite = false;
        }
    }
}
