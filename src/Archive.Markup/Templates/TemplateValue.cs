using System.Collections;
using Scriban.Functions;
using Scriban.Syntax;

namespace Archive.Markup.Templates;

/// <summary>A value that a template asks for.</summary>
internal abstract class TemplateValue
{
    /// <summary>Finds it.</summary>
    public abstract object? Read(PageContext page, TemplateScope scope);
}

internal sealed class LiteralValue(object? value) : TemplateValue
{
    public override object? Read(PageContext page, TemplateScope scope) => value;
}

internal sealed class SiteValue : TemplateValue
{
    public override object? Read(PageContext page, TemplateScope scope) => page.Site;
}

internal sealed class PageValue : TemplateValue
{
    public override object? Read(PageContext page, TemplateScope scope) => page.Page;
}

internal sealed class GivenValue(int place) : TemplateValue
{
    public override object? Read(PageContext page, TemplateScope scope) =>
        scope.Given is not { } given ? throw new TemplateCodeException() : place < given.Count ? given[place] : null;
}

internal sealed class EntryValue(int loop) : TemplateValue
{
    public override object? Read(PageContext page, TemplateScope scope) => scope.Loops[loop].Entry;
}

internal sealed class PlaceValue(int loop) : TemplateValue
{
    public override object? Read(PageContext page, TemplateScope scope) => scope.Loops[loop].Place;
}

internal sealed class IsFirstValue(int loop) : TemplateValue
{
    public override object? Read(PageContext page, TemplateScope scope) => scope.Loops[loop].Place == 0;
}

internal sealed class IsLastValue(int loop) : TemplateValue
{
    public override object? Read(PageContext page, TemplateScope scope) => scope.Loops[loop] is var (_, place, count) && place == count - 1;
}

/// <summary>A property of something.</summary>
internal sealed class MemberValue(TemplateValue owner, string name) : TemplateValue
{
    // Nearly always a place of a template reads the same property of the same type again. Pages are written at the same time: one reference
    // holds both.
    private sealed record Known(Type Type, Func<object, object?> Read);

    private Known? _known;

    public override object? Read(PageContext page, TemplateScope scope)
    {
        var from = owner.Read(page, scope) ?? throw new TemplateCodeException();
        var known = _known;
        if (known?.Type == from.GetType()) return known!.Read(from);
        var members = page.GetMemberAccessor(from);
        if (members is BoundProperties bound && bound.Find(name) is { } read)
        {
            _known = new Known(from.GetType(), read);
            return read(from);
        }

        return members.TryGetValue(page, default, from, name, out var value) ? value : throw new TemplateCodeException();
    }
}

internal sealed class EntryAtValue(TemplateValue list, int place) : TemplateValue
{
    public override object? Read(PageContext page, TemplateScope scope) =>
        list.Read(page, scope) is IList entries && place < entries.Count ? entries[place] : throw new TemplateCodeException();
}

internal sealed class NotValue(TemplateValue value) : TemplateValue
{
    public override object? Read(PageContext page, TemplateScope scope) => !page.ToBool(default, value.Read(page, scope));
}

internal sealed class AndValue(TemplateValue left, TemplateValue right) : TemplateValue
{
    public override object? Read(PageContext page, TemplateScope scope) =>
        page.ToBool(default, left.Read(page, scope)) && page.ToBool(default, right.Read(page, scope));
}

internal sealed class OrValue(TemplateValue left, TemplateValue right) : TemplateValue
{
    public override object? Read(PageContext page, TemplateScope scope) =>
        page.ToBool(default, left.Read(page, scope)) || page.ToBool(default, right.Read(page, scope));
}

internal sealed class ComparisonValue(ScriptBinaryOperator how, TemplateValue left, TemplateValue right) : TemplateValue
{
    public override object? Read(PageContext page, TemplateScope scope) =>
        ScriptBinaryExpression.Evaluate(page, default, how, left.Read(page, scope), right.Read(page, scope));

    /// <summary>Whether two values are the same to the library.</summary>
    public static bool AreEqual(PageContext page, object? one, object? other) => one is string text && other is string same
        ? text == same
        : ScriptBinaryExpression.Evaluate(page, default, ScriptBinaryOperator.CompareEqual, one, other) is true;
}

/// <remarks>Of small numbers, such as places in lists; text that grows is the library's business.</remarks>
internal sealed class SumValue(TemplateValue left, TemplateValue right) : TemplateValue
{
    public override object? Read(PageContext page, TemplateScope scope) =>
        left.Read(page, scope) is int one and >= 0 and < 1 << 30 && right.Read(page, scope) is int other and >= 0 and < 1 << 30
            ? one + other
            : throw new TemplateCodeException();
}

internal sealed class UnbrokenValue(TemplateValue text) : TemplateValue
{
    public override object? Read(PageContext page, TemplateScope scope) => UnbrokenText.In(text.Read(page, scope));
}

internal sealed class CapitalizedValue(TemplateValue text) : TemplateValue
{
    public override object? Read(PageContext page, TemplateScope scope) =>
        text.Read(page, scope) is string { Length: > 0 } words ? StringFunctions.Capitalize(words) : throw new TemplateCodeException();
}
