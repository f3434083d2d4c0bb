using System.Collections.Concurrent;
using System.Reflection;
using Scriban;
using Scriban.Parsing;
using Scriban.Runtime;

namespace Archive.Markup.Templates;

/// <summary>
/// Reads the properties of a type through delegates bound to their getters. The library's own accessor reads them by reflection, at about
/// twice the cost; it keeps all else.
/// </summary>
/// <param name="type">The type that is read.</param>
/// <param name="plain">The library's accessor of that type.</param>
internal sealed class BoundProperties(Type type, IObjectAccessor plain) : IObjectAccessor
{
    private static readonly object True = true;
    private static readonly object False = false;
    private static readonly MethodInfo Bind = typeof(BoundProperties).GetMethod(
        nameof(Bound), BindingFlags.NonPublic | BindingFlags.Static)!;

    private readonly ConcurrentDictionary<string, Func<object, object?>?> _getters = new(StringComparer.Ordinal);

    public Type? IndexType => plain.IndexType;

    public bool HasIndexer => plain.HasIndexer;

    public bool TryGetValue(TemplateContext context, SourceSpan span, object target, string member, out object? value) =>
        Find(member) is { } getter
            ? (value = getter(target)) is var _
            : plain.TryGetValue(context, span, target, member, out value);

    /// <summary>What reads a property; null where the type has none of that name.</summary>
    /// <param name="member">Its name, as templates say it.</param>
    public Func<object, object?>? Find(string member) => _getters.GetOrAdd(member, Getter);

    public int GetMemberCount(TemplateContext context, SourceSpan span, object target) => plain.GetMemberCount(context, span, target);

    public IEnumerable<string> GetMembers(TemplateContext context, SourceSpan span, object target) =>
        plain.GetMembers(context, span, target);

    public bool HasMember(TemplateContext context, SourceSpan span, object target, string member) =>
        plain.HasMember(context, span, target, member);

    public bool TrySetValue(TemplateContext context, SourceSpan span, object target, string member, object? value) =>
        plain.TrySetValue(context, span, target, member, value);

    public bool TryGetItem(TemplateContext context, SourceSpan span, object target, object index, out object? value) =>
        plain.TryGetItem(context, span, target, index, out value);

    public bool TrySetItem(TemplateContext context, SourceSpan span, object target, object index, object? value) =>
        plain.TrySetItem(context, span, target, index, value);

    private Func<object, object?>? Getter(string member)
    {
        var named = Array.Find(type.GetProperties(), property => property.GetIndexParameters().Length == 0
            && StandardMemberRenamer.Default(property) == member);
        if (type.IsValueType || named?.GetMethod is not { IsPublic: true, IsStatic: false } getter) return null;
        return (Func<object, object?>)Bind.MakeGenericMethod(type, named.PropertyType).Invoke(null, [getter])!;
    }

    private static Func<object, object?> Bound<T, TValue>(MethodInfo getter)
    {
        // Two boxes serve all that is true or false.
        if (typeof(TValue) == typeof(bool))
        {
            var ask = getter.CreateDelegate<Func<T, bool>>();
            return target => ask((T)target) ? True : False;
        }

        var read = getter.CreateDelegate<Func<T, TValue>>();
        return target => read((T)target);
    }
}
