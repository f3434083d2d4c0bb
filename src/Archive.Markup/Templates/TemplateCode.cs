using System.Collections;
using Scriban.Runtime;

namespace Archive.Markup.Templates;

/// <summary>
/// A template in the form in which it is written again and again: text is UTF-8 already, each place knows how to read what it read last,
/// and what a name means was decided once. The library finds all of that out for every row.
/// </summary>
/// <remarks>It knows only how to write what is in order. Whatever else it meets is a <see cref="TemplateCodeException"/>; then the library
/// writes the page from its beginning, and finds the error if there is one.</remarks>
internal abstract class TemplateCode
{
    /// <summary>Writes it.</summary>
    public abstract void Write(PageContext page, TemplateScope scope);
}

/// <summary>Something that only the library knows how to write, or that is an error.</summary>
internal sealed class TemplateCodeException() : Exception("left to the library");

/// <summary>What a template's names stand for while it is written.</summary>
/// <param name="given">What it was given: <c>$0</c>, <c>$1</c>, …; null for a page's own template.</param>
/// <param name="depth">How many loops stand in each other in it.</param>
internal sealed class TemplateScope(ScriptArray? given, int depth)
{
    /// <summary>What it was given.</summary>
    public ScriptArray? Given { get; } = given;

    /// <summary>The loops that are open, the outer one first: the entry, its place from 0, and how many there are.</summary>
    public (object? Entry, int Place, int Count)[] Loops { get; } = depth == 0 ? [] : new (object?, int, int)[depth];
}

/// <summary>A whole template.</summary>
/// <param name="code">What it writes.</param>
/// <param name="depth">How many loops stand in each other in it.</param>
internal sealed class WholeTemplate(TemplateCode code, int depth)
{
    public void Write(PageContext page, ScriptArray? given) => code.Write(page, new TemplateScope(given, depth));
}

internal sealed class SequenceCode(TemplateCode[] parts) : TemplateCode
{
    public override void Write(PageContext page, TemplateScope scope)
    {
        foreach (var part in parts) part.Write(page, scope);
    }
}

internal sealed class TextCode(byte[] markup) : TemplateCode
{
    public override void Write(PageContext page, TemplateScope scope) => page.WriteBytes(markup);
}

internal sealed class ValueCode(TemplateValue value) : TemplateCode
{
    public override void Write(PageContext page, TemplateScope scope) => page.Write(default, value.Read(page, scope));
}

internal sealed class IfCode(TemplateValue condition, TemplateCode then, TemplateCode? otherwise) : TemplateCode
{
    public override void Write(PageContext page, TemplateScope scope) =>
        (page.ToBool(default, condition.Read(page, scope)) ? then : otherwise)?.Write(page, scope);
}

internal sealed class CaseCode(TemplateValue value, (TemplateValue[] Values, TemplateCode Then)[] whens, TemplateCode? otherwise)
    : TemplateCode
{
    public override void Write(PageContext page, TemplateScope scope)
    {
        var read = value.Read(page, scope);
        foreach (var (values, then) in whens)
        {
            if (!Array.Exists(values, one => ComparisonValue.AreEqual(page, read, one.Read(page, scope)))) continue;
            then.Write(page, scope);
            return;
        }

        otherwise?.Write(page, scope);
    }
}

/// <param name="loop">Its place among the loops that are open.</param>
/// <param name="limit">How many entries at most; 0 for all.</param>
internal sealed class ForCode(TemplateValue list, int loop, int offset, int limit, TemplateCode body, TemplateCode? otherwise)
    : TemplateCode
{
    public override void Write(PageContext page, TemplateScope scope)
    {
        var read = list.Read(page, scope);
        if (read is null) return;
        if (read is not IList entries) throw new TemplateCodeException();
        var count = Math.Max(entries.Count - offset, 0);
        if (limit > 0) count = Math.Min(count, limit);
        for (var place = 0; place < count; place++)
        {
            page.CountStep();
            scope.Loops[loop] = (entries[offset + place], place, count);
            body.Write(page, scope);
        }

        if (count == 0) otherwise?.Write(page, scope);
    }
}

internal sealed class IncludeCode(Theme theme, TemplateValue template, TemplateValue[] given) : TemplateCode
{
    public override void Write(PageContext page, TemplateScope scope)
    {
        if (template.Read(page, scope) is not string name) throw new TemplateCodeException();
        var values = new ScriptArray(given.Length);
        foreach (var value in given) values.Add(value.Read(page, scope));
        theme.Include.Write(page, name, values);
    }
}

internal sealed class ContentsCode : TemplateCode
{
    public override void Write(PageContext page, TemplateScope scope) => TableOfContents.AskFor(page);
}
