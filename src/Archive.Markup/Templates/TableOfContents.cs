using System.Text;
using Scriban;
using Scriban.Runtime;
using Scriban.Syntax;

namespace Archive.Markup.Templates;

/// <summary>
/// <c>contents</c>: here stands the way to each heading below (<c>h2</c> with an id), where a page is long and has several. It is written
/// when the page is whole, so that no template has to repeat the conditions under which its sections stand.
/// </summary>
internal sealed class TableOfContents : IScriptCustomFunction
{
    // Shorter pages of the demo fill no three screens of a phone (measured at 360 x 780 px).
    private const int LeastBytes = 6 * 1024;
    private const int LeastHeadings = 2;

    public int RequiredParameterCount => 0;

    public int ParameterCount => 0;

    public ScriptVarParamKind VarParamKind => ScriptVarParamKind.None;

    public Type ReturnType => typeof(object);

    public object? Invoke(TemplateContext context, ScriptNode? callerContext, ScriptArray arguments, ScriptBlockStatement? blockStatement)
    {
        AskFor(context);
        return null;
    }

    /// <summary>Here the contents are to stand.</summary>
    internal static void AskFor(TemplateContext context)
    {
        if (context.Output is PageOutput output) output.ContentsAt = output.Written.Length;
    }

    public ValueTask<object?> InvokeAsync(
        TemplateContext context, ScriptNode? callerContext, ScriptArray arguments, ScriptBlockStatement? blockStatement) =>
        ValueTask.FromResult(Invoke(context, callerContext, arguments, blockStatement));

    public ScriptParameterInfo GetParameterInfo(int index) => throw new ArgumentOutOfRangeException(nameof(index));

    /// <summary>Writes the contents of a finished page where it asked for them.</summary>
    internal static void PutInto(PageOutput page)
    {
        if (page.ContentsAt is not { } at || page.Written.Length - at < LeastBytes) return;
        var links = new StringBuilder();
        var count = 0;
        var rest = page.Written[at..];
        while (rest.IndexOf("<h2 id=\""u8) is var begin and >= 0)
        {
            rest = rest[(begin + "<h2 id=\""u8.Length)..];
            var (idEnd, end) = (rest.IndexOf("\">"u8), rest.IndexOf("</h2>"u8));
            if (idEnd < 0 || end < idEnd) break;
            var name = WithoutTags(Encoding.UTF8.GetString(rest[(idEnd + 2)..end]));
            links.Append("<li><a href=\"#").Append(Encoding.UTF8.GetString(rest[..idEnd])).Append("\">").Append(name).Append("</a></li>\n");
            count++;
            rest = rest[end..];
        }

        if (count >= LeastHeadings) page.Insert(
            at, Encoding.UTF8.GetBytes($"<nav class=\"jumps contents\" aria-label=\"On this page\">\n<ul>\n{links}</ul>\n</nav>\n"));
    }

    // Text of a page is escaped already: what is between angle brackets is a tag.
    private static string WithoutTags(string markup)
    {
        var text = new StringBuilder(markup.Length);
        var isTag = false;
        foreach (var letter in markup)
        {
            if (letter == '<') isTag = true;
            else if (letter == '>') isTag = false;
            else if (!isTag) text.Append(letter);
        }

        return text.ToString();
    }
}
