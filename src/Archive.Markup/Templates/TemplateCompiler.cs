using System.Collections.Immutable;
using Scriban.Syntax;

namespace Archive.Markup.Templates;

/// <summary>
/// Makes a <see cref="WholeTemplate"/> of a template that asks for nothing unusual: text, properties, conditions, loops and parts. What
/// else the language has, such as assignments and functions of text, the library writes.
/// </summary>
internal sealed class TemplateCompiler
{
    private readonly Theme _theme;
    private int _deepest;

    private TemplateCompiler(Theme theme) => _theme = theme;

    /// <summary>The template as code; null where the library is to write it.</summary>
    /// <param name="theme">Where its parts are found.</param>
    public static WholeTemplate? TryCompile(ScriptPage template, Theme theme)
    {
        var compiler = new TemplateCompiler(theme);
        return compiler.Code(template.Body, []) is { } code ? new WholeTemplate(code, compiler._deepest) : null;
    }

    // The names of loops are those that are open, the outer one first.
    private TemplateCode? Code(ScriptBlockStatement? block, ImmutableArray<string> loops)
    {
        if (block is null) return null;
        var parts = new List<TemplateCode>();
        foreach (var statement in block.Statements.Where(DoesSomething))
        {
            if (Code(statement, loops) is not { } part) return null;
            parts.Add(part);
        }

        return parts is [var only] ? only : new SequenceCode([.. parts]);
    }

    private TemplateCode? Code(ScriptStatement statement, ImmutableArray<string> loops) => statement switch
    {
        ScriptRawStatement raw => new TextCode(PageOutput.BytesOf(raw.Text.ToString())),
        ScriptExpressionStatement { Expression: ScriptFunctionCall { Target: ScriptVariableGlobal { Name: "include" } } call } =>
            Include(call, loops),
        ScriptExpressionStatement { Expression: ScriptVariableGlobal { Name: "contents" } } when !loops.Contains("contents") =>
            new ContentsCode(),
        ScriptExpressionStatement { Expression: { } asked } => Value(asked, loops) is { } value ? new ValueCode(value) : null,
        ScriptIfStatement choice => If(choice, loops),
        ScriptCaseStatement choice => Case(choice, loops),
        ScriptForStatement loop when statement.GetType() == typeof(ScriptForStatement) => For(loop, loops),
        _ => null,
    };

    private static bool DoesSomething(ScriptStatement statement) =>
        statement is not (ScriptEscapeStatement or ScriptNopStatement or ScriptEndStatement or ScriptRawStatement { Text.Length: 0 });

    private IncludeCode? Include(ScriptFunctionCall call, ImmutableArray<string> loops)
    {
        if (loops.Contains("include") || call.Arguments.Count == 0) return null;
        var values = call.Arguments.Select(argument => Value(argument, loops)).ToArray();
        return values.Contains(null) ? null : new IncludeCode(_theme, values[0]!, values[1..]!);
    }

    private IfCode? If(ScriptIfStatement choice, ImmutableArray<string> loops)
    {
        if (Value(choice.Condition, loops) is not { } condition || Code(choice.Then, loops) is not { } then) return null;
        if (choice.Else is null) return new IfCode(condition, then, null);
        var otherwise = choice.Else switch
        {
            ScriptIfStatement next => If(next, loops),
            ScriptElseStatement last => Code(last.Body, loops),
            _ => null,
        };
        return otherwise is null ? null : new IfCode(condition, then, otherwise);
    }

    private CaseCode? Case(ScriptCaseStatement choice, ImmutableArray<string> loops)
    {
        if (choice.Body?.Statements.Where(DoesSomething).ToList() is not [ScriptWhenStatement first]) return null;
        if (Value(choice.Value, loops) is not { } value) return null;
        var whens = new List<(TemplateValue[], TemplateCode)>();
        ScriptConditionStatement? next = first;
        for (; next is ScriptWhenStatement when; next = when.Next)
        {
            var values = when.Values.Select(one => Value(one, loops)).ToArray();
            if (values.Contains(null) || Code(when.Body, loops) is not { } then) return null;
            whens.Add(([.. values.OfType<TemplateValue>()], then));
        }

        if (next is null) return new CaseCode(value, [.. whens], null);
        return next is ScriptElseStatement last && Code(last.Body, loops) is { } otherwise
            ? new CaseCode(value, [.. whens], otherwise)
            : null;
    }

    private ForCode? For(ScriptForStatement loop, ImmutableArray<string> loops)
    {
        var (offset, limit) = (0, 0);
        foreach (var option in loop.NamedArguments ?? [])
        {
            if (option.Value is not ScriptLiteral { Value: int number and >= 0 }) return null;
            if (option.Name?.Name == "offset") offset = number;
            else if (option.Name?.Name == "limit") limit = number;
            else return null;
        }

        // Where there is no entry, its name means nothing: it must not be taken for that of a loop around this one.
        var otherwise = loop.Else is { } none ? Code(none.Body, [.. loops.Select(_ => "")]) : null;
        if (loop.Variable is not ScriptVariableGlobal entry || (loop.Else is not null && otherwise is null)) return null;
        if (Value(loop.Iterator, loops) is not { } list || Code(loop.Body, loops.Add(entry.Name)) is not { } body) return null;
        _deepest = Math.Max(_deepest, loops.Length + 1);
        return new ForCode(list, loops.Length, offset, limit, body, otherwise);
    }

    private static TemplateValue? Value(ScriptExpression? asked, ImmutableArray<string> loops) => asked switch
    {
        ScriptLiteral literal => new LiteralValue(literal.Value),
        ScriptNestedExpression nested => Value(nested.Expression, loops),
        ScriptVariableGlobal variable => Variable(variable.Name, loops),
        ScriptMemberExpression { Target: ScriptVariableGlobal { Name: "for" }, Member.Name: var name } => OfLoop(name, loops),
        ScriptMemberExpression { DotToken.Value: ".", Member.Name: { } name } of =>
            Value(of.Target, loops) is { } owner ? new MemberValue(owner, name) : null,
        ScriptIndexerExpression { Target: ScriptVariableLocal { BaseName: "" }, Index: ScriptLiteral { Value: int place and >= 0 } } =>
            new GivenValue(place),
        ScriptIndexerExpression { Index: ScriptLiteral { Value: int place and >= 0 } } of =>
            Value(of.Target, loops) is { } list ? new EntryAtValue(list, place) : null,
        ScriptUnaryExpression { Operator: ScriptUnaryOperator.Not } not =>
            Value(not.Right, loops) is { } value ? new NotValue(value) : null,
        ScriptBinaryExpression both => Value(both.Left, loops) is { } left && Value(both.Right, loops) is { } right
            ? Combined(both.Operator, left, right)
            : null,
        ScriptFunctionCall { Target: ScriptVariableGlobal { Name: "unbroken" }, Arguments: [var text] } =>
            !loops.Contains("unbroken") && Value(text, loops) is { } value ? new UnbrokenValue(value) : null,
        ScriptPipeCall { To: ScriptFunctionCall { Target: ScriptMemberExpression function, Arguments.Count: 0 } } pipe
            when function is { Target: ScriptVariableGlobal { Name: "string" }, Member.Name: "capitalize" } && !loops.Contains("string") =>
            Value(pipe.From, loops) is { } value ? new CapitalizedValue(value) : null,
        _ => null,
    };

    private static TemplateValue? Variable(string name, ImmutableArray<string> loops) => loops.LastIndexOf(name) switch
    {
        >= 0 and var loop => new EntryValue(loop),
        _ when name == "page" => new PageValue(),
        _ when name == "site" => new SiteValue(),
        _ => null,
    };

    private static TemplateValue? OfLoop(string? name, ImmutableArray<string> loops) => name switch
    {
        _ when loops is [] or [.., ""] => null,
        "index" => new PlaceValue(loops.Length - 1),
        "first" => new IsFirstValue(loops.Length - 1),
        "last" => new IsLastValue(loops.Length - 1),
        _ => null,
    };

    private static TemplateValue? Combined(ScriptBinaryOperator how, TemplateValue left, TemplateValue right) => how switch
    {
        ScriptBinaryOperator.And => new AndValue(left, right),
        ScriptBinaryOperator.Or => new OrValue(left, right),
        ScriptBinaryOperator.Add => new SumValue(left, right),
        ScriptBinaryOperator.CompareEqual
            or ScriptBinaryOperator.CompareNotEqual
            or ScriptBinaryOperator.CompareGreater
            or ScriptBinaryOperator.CompareGreaterOrEqual
            or ScriptBinaryOperator.CompareLess
            or ScriptBinaryOperator.CompareLessOrEqual => new ComparisonValue(how, left, right),
        _ => null,
    };
}
