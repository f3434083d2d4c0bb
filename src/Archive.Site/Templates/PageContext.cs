using System.Collections;
using System.Collections.Concurrent;
using System.Globalization;
using Scriban;
using Scriban.Parsing;
using Scriban.Runtime;

namespace Archive.Site;

/// <summary>
/// The rendering of one page: escapes by construction. Whatever a template writes is text and is escaped, unless its type is
/// <see cref="Markup"/>, which only code of ours makes.
/// </summary>
/// <remarks>
/// Unknown names and members of nothing are faults. Empty text, empty lists and zero count as false in conditions. There is no clock, no file, no
/// random number and no evaluation of text: functions are <c>include</c>, <c>array.*</c> and <c>string.*</c>.
/// </remarks>
internal sealed class PageContext : TemplateContext
{
    // Endless loops end; a sheet of 500 rows stays far below.
    private const int MostSteps = 1_000_000;

    // How the members of a type are read is found by reflection: once for all pages, not once for each.
    private static readonly ConcurrentDictionary<Type, IObjectAccessor> Accessors = new();

    private readonly PageOutput _output;

    /// <summary>A context for one page, or a part of it.</summary>
    /// <param name="theme">Where <c>include</c> finds templates.</param>
    /// <param name="output">Where the page goes.</param>
    /// <param name="site">What the template sees as <c>site</c>.</param>
    /// <param name="page">What it sees as <c>page</c>; null for a part that reads nothing of it.</param>
    public PageContext(Theme theme, PageOutput output, object site, object? page = null)
        : base(theme.Functions)
    {
        _output = output;
        Site = site;
        MemberRenamer = StandardMemberRenamer.Default;
        StrictVariables = true;
        EnableRelaxedMemberAccess = false;
        LoopLimit = MostSteps;
        LimitToString = 0;
        OutputLimit = null;
        PushOutput(output);
        PushCulture(CultureInfo.InvariantCulture);
        var given = new ScriptObject { ["site"] = site };
        if (page is not null) given["page"] = page;
        PushGlobal(given);
    }

    /// <summary>What the template sees as <c>site</c>.</summary>
    public object Site { get; }

    /// <inheritdoc/>
    public override TemplateContext Write(SourceSpan span, object? textAsObject)
    {
        switch (textAsObject)
        {
            case null:
                break;
            case Markup markup:
                WriteRaw(markup.ToString());
                break;
            case string text when Output == _output:
                _output.WriteText(text);
                break;
            default:
                WriteRaw(Escaping.Html(ObjectToString(textAsObject, false) ?? ""));
                break;
        }

        return this;
    }

    /// <inheritdoc/>
    public override bool ToBool(SourceSpan span, object? value) => value switch
    {
        string text => text.Length > 0,
        int number => number != 0,
        ICollection list => list.Count > 0,
        Markup markup => markup.ToString().Length > 0,
        _ => base.ToBool(span, value),
    };

    /// <inheritdoc/>
    protected override IObjectAccessor? GetMemberAccessorImpl(object target)
    {
        if (Accessors.TryGetValue(target.GetType(), out var known)) return known;
        var accessor = base.GetMemberAccessorImpl(target);
        return accessor is null ? null : Accessors.GetOrAdd(target.GetType(), accessor);
    }

    private void WriteRaw(string markup)
    {
        if (markup.Length > 0) Output.Write(markup, 0, markup.Length);
    }
}
