using System.Collections;
using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Reflection;
using System.Runtime.CompilerServices;
using Archive.Diagnostics;
using Archive.Records.Model;
using Xunit;

namespace Archive.Architecture.Tests;

/// <summary>What rooms pass to each other cannot be changed once it is made.</summary>
public class ModelTests
{
    private const BindingFlags Public = BindingFlags.Public | BindingFlags.Instance;

    public static TheoryData<Type> Model =>
        [.. Reachable(typeof(ParseResult), typeof(ArchiveModel), typeof(Diagnostic), typeof(DiagnosticDescriptor))];

    [Fact]
    public void The_model_holds_every_kind_of_record()
    {
        var records = typeof(ArchiveRecord).Assembly.GetExportedTypes().Where(type => type.IsSubclassOf(typeof(ArchiveRecord)));
        Assert.Equal(Enum.GetValues<RecordKind>().Length, records.Count(Reachable(typeof(ArchiveModel)).Contains));
    }

    [Theory]
    [MemberData(nameof(Model))]
    public void No_property_can_be_set_later(Type type)
    {
        var settable = type.GetProperties(Public)
            .Where(property => property.SetMethod is { IsPublic: true } set
                && !set.ReturnParameter.GetRequiredCustomModifiers().Contains(typeof(IsExternalInit)));
        Assert.Empty(settable.Select(property => property.Name));
    }

    [Theory]
    [MemberData(nameof(Model))]
    public void No_field_can_be_written(Type type) =>
        Assert.Empty(type.GetFields(Public).Where(field => !field.IsInitOnly).Select(field => field.Name));

    [Theory]
    [MemberData(nameof(Model))]
    public void Collections_are_immutable(Type type)
    {
        var mutable = type.GetProperties(Public).Where(property => IsCollection(property.PropertyType) && !IsFixed(property.PropertyType));
        Assert.Empty(mutable.Select(property => $"{property.Name}: {property.PropertyType.Name}"));
    }

    [Theory]
    [MemberData(nameof(Model))]
    public void Classes_are_closed(Type type) =>
        Assert.True(type.IsSealed || type.IsAbstract, $"{type.Name} is neither sealed nor abstract");

    private static HashSet<Type> Reachable(params Type[] from)
    {
        var seen = new HashSet<Type>();
        var waiting = new Stack<Type>(from);
        while (waiting.TryPop(out var type))
        {
            foreach (var argument in type.GetGenericArguments()) waiting.Push(argument);
            if (type.Namespace?.StartsWith("Archive.", StringComparison.Ordinal) != true
                || type.IsEnum
                || type.IsGenericParameter
                || !seen.Add(type)) continue;
            foreach (var property in type.GetProperties(Public)) waiting.Push(property.PropertyType);
            foreach (var heir in type.Assembly.GetExportedTypes().Where(heir => heir.BaseType == type)) waiting.Push(heir);
        }

        return seen;
    }

    private static bool IsCollection(Type type) => type != typeof(string) && type.IsAssignableTo(typeof(IEnumerable));

    // A sequence that is computed on demand (IEnumerable<T> itself) holds nothing that could be changed.
    private static bool IsFixed(Type type) => type.IsGenericType && type.GetGenericTypeDefinition() is { } open
        && (open == typeof(ImmutableArray<>)
            || open == typeof(FrozenDictionary<,>)
            || open == typeof(FrozenSet<>)
            || open == typeof(IEnumerable<>));
}
