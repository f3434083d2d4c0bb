using System.Collections.Concurrent;
using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Storage.Output;
using Scriban;
using Scriban.Functions;
using Scriban.Runtime;
using Scriban.Syntax;

namespace Archive.Markup.Templates;

/// <summary>A theme: templates, parsed once and shared by all pages, and the assets that are published beside them.</summary>
public sealed class Theme
{
    private readonly FrozenDictionary<string, ThemeTemplate> _templates;
    private readonly FrozenDictionary<string, SourceText> _sources;
    private readonly FrozenDictionary<string, Lazy<WholeTemplate?>> _code;

    // What one page needed to be rendered serves the next. Not a bag: it has a store for each thread, and a context refers to its theme, so
    // that no theme would ever be let go.
    private readonly ConcurrentStack<PageContext> _contexts = [];

    internal Theme(string name, ImmutableArray<ThemeTemplate> templates, ImmutableArray<ThemeAsset> assets)
    {
        Name = name;
        Assets = assets;
        Shared = new SharedParts(this);
        var include = new IncludeTemplate(this);
        Include = include;
        Functions = new ScriptObject
        {
            ["include"] = include,
            ["contents"] = new TableOfContents(),
            ["unbroken"] = new UnbrokenText(),
            ["array"] = new ArrayFunctions { IsReadOnly = true },
            ["string"] = new StringFunctions { IsReadOnly = true },
        };
        Functions.IsReadOnly = true;
        _templates = templates.ToFrozenDictionary(template => template.Name, StringComparer.Ordinal);
        _code = templates.ToFrozenDictionary(
            template => template.Name,
            template => new Lazy<WholeTemplate?>(() => template.Parsed.Page is { } page ? TemplateCompiler.TryCompile(page, this) : null),
            StringComparer.Ordinal);
        _sources = templates.ToFrozenDictionary(template => template.Source.Path, template => template.Source, StringComparer.Ordinal);
    }

    /// <summary>Its name: that of its folder.</summary>
    public string Name { get; }

    /// <summary>Style sheets, fonts, scripts: by path.</summary>
    public ImmutableArray<ThemeAsset> Assets { get; }

    /// <summary>Whether it has a template.</summary>
    /// <param name="name">Name without <c>.html</c>.</param>
    public bool Has(string name) => _templates.ContainsKey(name);

    /// <summary>What templates can call.</summary>
    internal ScriptObject Functions { get; }

    /// <summary>The parts that are the same on many pages.</summary>
    internal SharedParts Shared { get; }

    /// <summary>What writes a part into a page.</summary>
    internal IncludeTemplate Include { get; }

    /// <summary>The code of a template; null where the library writes it.</summary>
    internal WholeTemplate? CodeOf(string name) => _code.GetValueOrDefault(name)?.Value;

    internal Template? TemplateNamed(string name) => _templates.GetValueOrDefault(name)?.Parsed;

    /// <summary>Renders a page of the site: its layout, its table of contents, and the policy that every page carries, whatever the
    /// theme.</summary>
    /// <param name="page">What the template sees as <c>page</c>.</param>
    /// <param name="site">What it sees as <c>site</c>.</param>
    /// <param name="isRooted">Whether the page names its site's root, as one does that is shown at any address.</param>
    public RenderedContent RenderPage(object page, object site, bool isRooted) =>
        Render("layout", page, site, output =>
        {
            TableOfContents.PutInto(output);
            ContentSecurityPolicy.PutInto(output, isRooted);
        });

    /// <summary>Renders a template.</summary>
    /// <param name="template">Name of the template.</param>
    /// <param name="page">What the template sees as <c>page</c>.</param>
    /// <param name="site">What it sees as <c>site</c>.</param>
    /// <param name="complete">What is done to the page when it is written; null for nothing.</param>
    internal RenderedContent Render(string template, object page, object site, Action<PageOutput>? complete = null)
    {
        if (!Has(template)) throw new InvalidOperationException($"the theme was read without {template}.html");
        if (!_contexts.TryPop(out var context)) context = new PageContext(this);
        var output = new PageOutput();
        try
        {
            context.Render(template, output, site, page);
            complete?.Invoke(output);
            _contexts.Push(context);
            return output.Finish();
        }
        catch (Exception exception) when (exception is TemplateCodeException or ScriptRuntimeException)
        {
            return RenderByLibrary(template, page, site, complete);
        }
    }

    // What the code of templates cannot write, or where it found an error: the library knows where in the template that is.
    private RenderedContent RenderByLibrary(string template, object page, object site, Action<PageOutput>? complete)
    {
        var output = new PageOutput();
        try
        {
            new PageContext(this) { UsesCode = false }.Render(template, output, site, page);
            complete?.Invoke(output);
            return output.Finish();
        }
        catch (ScriptRuntimeException exception)
        {
            return output.Finish(Error(exception, template));
        }
    }

    private Diagnostic Error(ScriptRuntimeException exception, string template)
    {
        var source = exception.Span.FileName is { } file && _sources.TryGetValue(file, out var named) ? named : _templates[template].Source;
        return DiagnosticDescriptors.TemplateFault.At(
            TemplateSpan.Locate(source, exception.Span),
            LibraryMessage.Format(exception.OriginalMessage),
            "correct the template; the theme's README lists the names that pages provide");
    }
}

/// <summary>A template of a theme.</summary>
/// <param name="Name">Name without <c>.html</c>.</param>
/// <param name="Source">Its text; the path is such as <c>themes/ledger/templates/frame.html</c>.</param>
/// <param name="Parsed">The parsed template.</param>
internal sealed record ThemeTemplate(string Name, SourceText Source, Template Parsed);
