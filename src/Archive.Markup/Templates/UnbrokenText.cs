using Archive.Markup.Text;
using Scriban;
using Scriban.Runtime;
using Scriban.Syntax;

namespace Archive.Markup.Templates;

/// <summary><c>unbroken TEXT</c>: a text in which no line breaks within an id.</summary>
internal sealed class UnbrokenText : IScriptCustomFunction
{
    public int RequiredParameterCount => 1;

    public int ParameterCount => 1;

    public ScriptVarParamKind VarParamKind => ScriptVarParamKind.None;

    public Type ReturnType => typeof(object);

    public object? Invoke(
        TemplateContext context, ScriptNode? callerContext, ScriptArray arguments, ScriptBlockStatement? blockStatement) =>
        In(arguments[0]);

    /// <summary>A value of a template, its ids held together if it is text.</summary>
    public static object? In(object? value) => value is string text ? UnbrokenIds.In(text) : value;

    public ValueTask<object?> InvokeAsync(
        TemplateContext context, ScriptNode? callerContext, ScriptArray arguments, ScriptBlockStatement? blockStatement) =>
        ValueTask.FromResult(Invoke(context, callerContext, arguments, blockStatement));

    public ScriptParameterInfo GetParameterInfo(int index) => new(typeof(object), "text");
}
