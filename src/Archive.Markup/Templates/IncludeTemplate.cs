using Scriban;
using Scriban.Runtime;
using Scriban.Syntax;

namespace Archive.Markup.Templates;

/// <summary>
/// <c>include 'name' value …</c>: writes another template of the theme straight into the page; its arguments are <c>$0</c>, <c>$1</c>, …
/// there.
/// </summary>
/// <remarks>The library's own include returns text, which would be escaped once more.</remarks>
/// <param name="theme">Where templates are found.</param>
internal sealed class IncludeTemplate(Theme theme) : IScriptCustomFunction
{
    public int RequiredParameterCount => 1;

    public int ParameterCount => 1;

    public ScriptVarParamKind VarParamKind => ScriptVarParamKind.Direct;

    public Type ReturnType => typeof(object);

    public object? Invoke(TemplateContext context, ScriptNode? callerContext, ScriptArray arguments, ScriptBlockStatement? blockStatement)
    {
        var name = arguments[0] as string
            ?? throw new ScriptRuntimeException(context.CurrentSpan, "include needs the name of a template in quotes");
        var own = new ScriptArray(arguments.Count - 1);
        for (var i = 1; i < arguments.Count; i++) own.Add(arguments[i]);
        Write((PageContext)context, name, own);
        return null;
    }

    /// <summary>Writes a part into a page.</summary>
    /// <param name="name">The part's template.</param>
    /// <param name="given">What is given to it.</param>
    public void Write(PageContext page, string name, ScriptArray given)
    {
        if (given.Count == 0 && page.Site is { } site && theme.Shared.TryRender(name, site) is { } shared)
        {
            page.Write(page.CurrentSpan, shared);
            return;
        }

        if (page.TryWriteCode(name, given)) return;
        var template = theme.TemplateNamed(name)?.Page
            ?? throw new ScriptRuntimeException(page.CurrentSpan, $"there is no template {name}.html in this theme");
        var outer = page.Given;
        page.EnterRecursive(template);
        page.PushLocal();
        try
        {
            page.SetValue(ScriptVariable.Arguments, given, true);
            page.Given = given;
            page.Evaluate(template);
        }
        finally
        {
            page.Given = outer;
            page.PopLocal();
            page.ExitRecursive(template);
        }
    }

    public ValueTask<object?> InvokeAsync(
        TemplateContext context, ScriptNode? callerContext, ScriptArray arguments, ScriptBlockStatement? blockStatement) =>
        ValueTask.FromResult(Invoke(context, callerContext, arguments, blockStatement));

    public ScriptParameterInfo GetParameterInfo(int index) => new(typeof(object), index == 0 ? "name" : "value");
}
