using System.Collections;
using System.Collections.Concurrent;
using System.Globalization;
using System.Runtime.InteropServices;
using Archive.Markup.Links;
using Archive.Markup.Text;
using Scriban;
using Scriban.Parsing;
using Scriban.Runtime;
using Scriban.Runtime.Accessors;
using Scriban.Syntax;

namespace Archive.Markup.Templates;

/// <summary>
/// The rendering of one page: escapes by construction. Whatever a template writes is text and is escaped, unless its type is
/// <see cref="HtmlFragment"/>, which only code of ours makes.
/// </summary>
/// <remarks>
/// Unknown names and members of nothing are errors. Empty text, empty lists and zero count as false in conditions. There is no clock, no
/// file, no random number and no evaluation of text: functions are <c>include</c>, <c>contents</c>, <c>array.*</c> and <c>string.*</c>.
/// </remarks>
internal sealed class PageContext : TemplateContext
{
    // Endless loops end; a sheet of 500 rows stays far below.
    private const int MostSteps = 1_000_000;

    // Parts within parts; beyond this the library finds out whether a part has no end.
    private const int DeepestCode = 30;

    // What a template makes of text is no longer than this, in UTF-16 units: text that is doubled forty times would fill the memory.
    private const int LongestText = 1 << 20;

    // How the members of a type are read is found by reflection: once for all pages, not once for each.
    private static readonly ConcurrentDictionary<Type, IObjectAccessor> Accessors = new();

    // What each place of a template read last, and of which type: nearly always it reads the same property again.
    private readonly Dictionary<ScriptMemberExpression, (Type Type, Func<object, object?> Read)> _places =
        new(ReferenceEqualityComparer.Instance);

    private readonly Theme _theme;
    private PageOutput? _output;
    private int _steps;
    private int _depth;

    /// <summary>A context for pages, one after the other.</summary>
    /// <param name="theme">Where <c>include</c> finds templates.</param>
    public PageContext(Theme theme)
        : base(theme.Functions)
    {
        _theme = theme;
        MemberRenamer = StandardMemberRenamer.Default;
        StrictVariables = true;
        EnableRelaxedMemberAccess = false;
        LoopLimit = MostSteps;
        LimitToString = LongestText;
        OnStringLimit = ScriptLimitBehavior.Throw;

        // The output has a limit of its own: by default the library would shorten a long page without an error.
        OutputLimit = 0;
        PushCulture(CultureInfo.InvariantCulture);
    }

    /// <summary>What the template sees as <c>site</c>, while it is rendered.</summary>
    public object? Site { get; private set; }

    /// <summary>What it sees as <c>page</c>, while it is rendered.</summary>
    public object? Page { get; private set; }

    /// <summary>Whether templates are written by their code, where they have one; otherwise the library writes them all.</summary>
    public bool UsesCode { get; init; } = true;

    /// <summary>Renders a template. After an error the context is not used again.</summary>
    /// <param name="template">Its name.</param>
    /// <param name="output">Where the page goes.</param>
    /// <param name="site">What the template sees as <c>site</c>.</param>
    /// <param name="page">What it sees as <c>page</c>; null for a part that reads nothing of it.</param>
    /// <exception cref="Scriban.Syntax.ScriptRuntimeException">The template has an error.</exception>
    /// <exception cref="TemplateCodeException">The library is to write it.</exception>
    public void Render(string template, PageOutput output, object site, object? page)
    {
        (_output, Site, Page, _steps) = (output, site, page, 0);
        var given = new ScriptObject { ["site"] = site };
        if (page is not null) given["page"] = page;
        PushOutput(output);
        PushGlobal(given);
        if (!TryWriteCode(template, null)) Evaluate(_theme.TemplateNamed(template)!.Page!);
        PopGlobal();
        PopOutput();
    }

    /// <summary>Writes a template by its code.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="given">What is given to it; null for the template of a page.</param>
    /// <returns>False where the library is to write it.</returns>
    public bool TryWriteCode(string name, ScriptArray? given)
    {
        if (!UsesCode || _theme.CodeOf(name) is not { } code) return false;
        if (++_depth > DeepestCode) throw new TemplateCodeException();
        code.Write(this, given);
        _depth--;
        return true;
    }

    /// <summary>Counts a round of a loop.</summary>
    public void CountStep()
    {
        if (++_steps > MostSteps) throw new TemplateCodeException();
    }

    /// <summary>Writes what <see cref="PageOutput.BytesOf"/> has made of markup.</summary>
    public void WriteBytes(byte[] markup) => _output!.WriteBytes(markup);

    /// <summary>What the part that is rendered was given: its <c>$0</c>, <c>$1</c>, …; null outside parts.</summary>
    public ScriptArray? Given { get; set; }

    /// <inheritdoc/>
    /// <remarks>
    /// Most of what templates ask for are properties of what they were given: those are read at once. Text, and what only holds other
    /// nodes, needs no guard of its own. All else goes the library's way, errors too.
    /// </remarks>
    public override object? Evaluate(ScriptNode? scriptNode, bool aliasReturnedFunction)
    {
        var kind = scriptNode?.GetType();
        if (kind == typeof(ScriptRawStatement)
            || kind == typeof(ScriptBlockStatement)
            || kind == typeof(ScriptIfStatement)
            || kind == typeof(ScriptLiteral)
            || kind == typeof(ScriptPage))
        {
            return scriptNode!.Evaluate(this);
        }

        var asked = kind == typeof(ScriptExpressionStatement) ? ((ScriptExpressionStatement)scriptNode!).Expression : scriptNode;
        if (asked?.GetType() == typeof(ScriptMemberExpression) && TryRead((ScriptMemberExpression)asked, out var value)) return value;
        var result = base.Evaluate(scriptNode, aliasReturnedFunction);

        // The library limits what its functions make of text, but not what `+` does.
        return result is string { Length: > LongestText } && asked is ScriptBinaryExpression
            ? throw new ScriptRuntimeException(asked.Span, $"text longer than {LongestText} characters")
            : result;
    }

    public override TemplateContext Write(SourceSpan span, object? textAsObject)
    {
        switch (textAsObject)
        {
            case null:
                break;
            case HtmlFragment markup:
                WriteRaw(markup.ToString());
                break;
            case string text when Output == _output:
                _output.WriteText(text);
                break;
            case Href href when Output == _output:
                _output.WriteText(href.Value);
                break;
            default:
                WriteRaw(HtmlEscaping.Html(ObjectToString(textAsObject, false) ?? ""));
                break;
        }

        return this;
    }

    public override bool ToBool(SourceSpan span, object? value) => value switch
    {
        string text => text.Length > 0,
        int number => number != 0,
        ICollection list => list.Count > 0,
        HtmlFragment markup => markup.ToString().Length > 0,
        _ => base.ToBool(span, value),
    };

    protected override IObjectAccessor? GetMemberAccessorImpl(object target)
    {
        if (Accessors.TryGetValue(target.GetType(), out var known)) return known;
        var accessor = base.GetMemberAccessorImpl(target);
        if (accessor is TypedObjectAccessor) accessor = new BoundProperties(target.GetType(), accessor);
        return accessor is null ? null : Accessors.GetOrAdd(target.GetType(), accessor);
    }

    private bool TryRead(ScriptMemberExpression asked, out object? value)
    {
        value = null;
        if (Target(asked.Target) is not { } target) return false;
        ref var place = ref CollectionsMarshal.GetValueRefOrAddDefault(_places, asked, out _);
        if (place.Type != target.GetType())
        {
            if (asked.Member is not { } name || GetMemberAccessor(target) is not BoundProperties members) return false;
            if (members.Find(name.Name) is not { } read) return false;
            place = (target.GetType(), read);
        }

        value = place.Read(target);
        return true;
    }

    private object? Target(ScriptExpression? from) => from switch
    {
        ScriptIndexerExpression { Target: ScriptVariableLocal { BaseName: "" }, Index: ScriptLiteral { Value: int place } }
            when place < Given?.Count => Given[place],
        ScriptVariableGlobal variable => GetValue(variable),
        ScriptMemberExpression outer when TryRead(outer, out var value) => value,
        _ => null,
    };

    private void WriteRaw(string markup)
    {
        if (markup.Length > 0) Output.Write(markup, 0, markup.Length);
    }
}
