using System.Collections;
using System.Globalization;
using Scriban;
using Scriban.Functions;
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

    private readonly PageOutput _output;

    /// <summary>A context for one page.</summary>
    /// <param name="theme">Where <c>include</c> finds templates.</param>
    /// <param name="output">Where the page goes.</param>
    public PageContext(Theme theme, PageOutput output)
        : base(new ScriptObject { ["include"] = new IncludeTemplate(theme), ["array"] = Arrays, ["string"] = Strings })
    {
        _output = output;
        StrictVariables = true;
        EnableRelaxedMemberAccess = false;
        LoopLimit = MostSteps;
        LimitToString = 0;
        OutputLimit = null;
        PushOutput(output);
        PushCulture(CultureInfo.InvariantCulture);
    }

    private static ArrayFunctions Arrays { get; } = new() { IsReadOnly = true };

    private static StringFunctions Strings { get; } = new() { IsReadOnly = true };

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

    private void WriteRaw(string markup)
    {
        if (markup.Length > 0) Output.Write(markup, 0, markup.Length);
    }
}
