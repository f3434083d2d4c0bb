using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Reflection;
using System.Runtime.CompilerServices;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Checks;
using Archive.Records.Model;
using Archive.Records.Terms;
using Xunit;

namespace Archive.Records.Tests.Checks;

/// <summary>
/// Whatever is stated may carry evidence, and that names people and holds prose. Here every stated fact of every kind of record is given
/// evidence by someone unknown, with a dangling link, by reflection: each must be reported, so that a key that is added later is not
/// forgotten.
/// </summary>
public class EvidenceTests
{
    private static readonly FrozenDictionary<string, Person> People = new[]
    {
        KeyValuePair.Create("hk", new Person("hk", null, null))
    }.ToFrozenDictionary();

    public static TheoryData<Type> Kinds =>
        [.. typeof(ArchiveRecord).Assembly.GetExportedTypes().Where(type => type.IsSubclassOf(typeof(ArchiveRecord)))];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Evidence_of_any_fact_is_checked(Type kind)
    {
        var planter = new Planter();
        var record = (ArchiveRecord)planter.Make(kind);
        typeof(ArchiveRecord).GetProperty(nameof(ArchiveRecord.Id))!.SetValue(record, "X-1");
        Assert.True(planter.Planted > 5);
        AssertAllTold(planter, new ParseResult(new ArchiveStatement { Span = planter.Nowhere, People = People }, [record], []));
    }

    [Fact]
    public void Evidence_in_archive_yaml_is_checked()
    {
        var planter = new Planter();
        var statement = (ArchiveStatement)planter.Make(typeof(ArchiveStatement));
        AssertAllTold(planter, new ParseResult(statement, [], []));
    }

    private static void AssertAllTold(Planter planter, ParseResult parsed)
    {
        var told = RecordChecks.Check(parsed, ArchiveModel.From(parsed));
        var planted = Enumerable.Range(1, planter.Planted).Select(n => $"who-{n}").Order(StringComparer.Ordinal);
        Assert.Equal(planted, told.Where(diagnostic => diagnostic.Descriptor == DiagnosticDescriptors.UnknownPerson)
            .Select(diagnostic => diagnostic.Span.Text)
            .Where(name => name.StartsWith("who-", StringComparison.Ordinal))
            .Order(StringComparer.Ordinal));
        Assert.Equal(planter.Planted, told.Count(diagnostic => diagnostic.Descriptor == DiagnosticDescriptors.UnknownReference
            && diagnostic.Span.Text.StartsWith("what-", StringComparison.Ordinal)));
    }

    private sealed class Planter
    {
        public int Planted { get; private set; }

        public SourceSpan Nowhere { get; } = new SourceText("made-up.yaml", string.Empty).Whole;

        /// <summary>A value of any type of the model: every stated fact in it with evidence, every list with one item.</summary>
        public object Make(Type type)
        {
            if (Nullable.GetUnderlyingType(type) is { } underlying) return Make(underlying);
            if (type == typeof(string)) return "x";
            if (type == typeof(Uri)) return new Uri("https://archive.example/");
            if (type == typeof(SourceSpan)) return Nowhere;
            if (type == typeof(Need)) return Make(typeof(AnyNeed));
            if (type == typeof(ImmutableArray<Need>)) return ImmutableArray.Create<Need>(
                (FrameNeed)Make(typeof(FrameNeed)),
                new AnyNeed(Nowhere, (Stated<int>)Make(typeof(Stated<int>)), (Stated<string>)Make(typeof(Stated<string>)), []));
            if (type == typeof(Address)) return Address.Create("X-1");
            if (type == typeof(UnitPlace)) return new UnitPlace(Address.Create("X-1"), null);
            if (type == typeof(EdtfDate)) return new EdtfDate("2026", null, null, 0);
            if (type == typeof(FrozenDictionary<string, Person>))
                return new[] { KeyValuePair.Create("hk", (Person)Make(typeof(Person))) }.ToFrozenDictionary();
            if (type.IsGenericType && type.GetGenericTypeDefinition() == typeof(Stated<>)) return Stated(type);
            if (type.IsGenericType && type.GetGenericTypeDefinition() == typeof(ImmutableArray<>))
                return Invoke(nameof(List), type.GetGenericArguments());
            if (type.IsGenericType && type.GetGenericTypeDefinition() == typeof(FrozenDictionary<,>))
                return Invoke(nameof(Table), type.GetGenericArguments());
            return type.Namespace == typeof(ArchiveRecord).Namespace && !type.IsEnum
                ? Fill(type)
                : RuntimeHelpers.GetUninitializedObject(type);
        }

        private object Stated(Type type)
        {
            Planted++;
            var by = TinyArchive.Written($"who-{Planted}");
            var note = TinyArchive.Written($"[[what-{Planted}]]");
            return Activator.CreateInstance(type, Make(type.GetGenericArguments()[0]), Nowhere, new Evidence { By = by, Note = note })!;
        }

        private object Fill(Type type)
        {
            var made = RuntimeHelpers.GetUninitializedObject(type);
            foreach (var property in type.GetProperties(BindingFlags.Public | BindingFlags.Instance).Where(property => property.CanWrite))
                property.SetValue(made, Make(property.PropertyType));
            return made;
        }

        private object Invoke(string method, Type[] arguments) =>
            typeof(Planter)
                .GetMethod(method, BindingFlags.NonPublic | BindingFlags.Instance)!
                .MakeGenericMethod(arguments)
                .Invoke(this, null)!;

        private ImmutableArray<T> List<T>() => [(T)Make(typeof(T))];

        private FrozenDictionary<TKey, TValue> Table<TKey, TValue>()
            where TKey : notnull =>
                new[] { KeyValuePair.Create((TKey)Make(typeof(TKey)), (TValue)Make(typeof(TValue))) }.ToFrozenDictionary();
    }
}
