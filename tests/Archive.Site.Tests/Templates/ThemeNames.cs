using System.Collections.Immutable;
using System.Reflection;
using System.Text;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using Archive.Site.Layout;

namespace Archive.Site.Tests.Templates;

/// <summary>Writes, from the view models and their documentation, what each page gives to its template.</summary>
internal sealed partial class ThemeNames
{
    // The projects whose types a template sees; those of the record itself are shown through them.
    private static readonly ImmutableArray<Assembly> Seen = [.. new[]
    {
        "Archive.Drawings", "Archive.LabelSheets", "Archive.Markup", "Archive.Plans", "Archive.Site"
    }.Select(Assembly.Load)];

    private readonly Dictionary<string, XElement> _docs;
    private readonly NullabilityInfoContext _nullability = new();

    internal ThemeNames() =>
        _docs = Seen.SelectMany(assembly => XDocument.Load(Path.ChangeExtension(assembly.Location, ".xml")).Descendants("member"))
            .ToDictionary(member => member.Attribute("name")!.Value, StringComparer.Ordinal);

    /// <summary>The types of the projects that a template sees.</summary>
    internal static IEnumerable<Type> Types => Seen.SelectMany(assembly => assembly.GetExportedTypes());

    /// <summary>The sections of the theme's README from <c>## Pages</c> to its end.</summary>
    internal string Sections()
    {
        var pages = typeof(PageView).Assembly.GetExportedTypes().Where(type => type.IsSubclassOf(typeof(PageView))).OrderBy(
            type => type.Name, StringComparer.Ordinal).ToList();
        var parts = new SortedDictionary<string, Type>(StringComparer.Ordinal) { [nameof(SiteView)] = typeof(SiteView) };
        foreach (var page in pages) Gather(page, parts);
        Gather(typeof(SiteView), parts);
        var text = new StringBuilder("## Pages\n");
        foreach (var page in pages) Section(text, page);
        text.Append("\n## What pages are made of\n");
        foreach (var part in parts.Values) Section(text, part);
        return text.ToString();
    }

    private static void Gather(Type of, SortedDictionary<string, Type> parts)
    {
        foreach (var type in Members(of).SelectMany(member => Within(member.PropertyType)))
        {
            if (Seen.Contains(type.Assembly) && parts.TryAdd(Name(type), type)) Gather(type, parts);
        }
    }

    private static IEnumerable<Type> Within(Type type) =>
        type.IsGenericType ? type.GetGenericArguments().SelectMany(Within).Append(type.GetGenericTypeDefinition()) : [type];

    // The head, which pages inherit, first.
    private static IEnumerable<PropertyInfo> Members(Type type) => type.GetProperties(BindingFlags.Public | BindingFlags.Instance)
        .Where(property => property.Name != "EqualityContract")
        .OrderBy(property => property.DeclaringType == type).ThenBy(property => property.MetadataToken);

    private void Section(StringBuilder text, Type type)
    {
        text.Append($"\n### {Name(type)}\n\n{Said(_docs.GetValueOrDefault($"T:{type.FullName}")?.Element("summary"))}\n");
        var members = Members(type).ToList();
        if (members.Count == 0) return;
        text.Append("\n| name | type | |\n| --- | --- | --- |\n");
        foreach (var member in members)
            text.Append($"| `{Renamed(member.Name)}` | {Typed(_nullability.Create(member))} | {Means(type, member)} |\n");
    }

    private string Means(Type type, PropertyInfo member) => Said(
        _docs.GetValueOrDefault($"P:{member.DeclaringType!.FullName}.{member.Name}")?.Element("summary")
        ?? _docs.GetValueOrDefault($"T:{type.FullName}")
            ?.Elements("param").FirstOrDefault(param => param.Attribute("name")!.Value == member.Name));

    private static string Said(XElement? element)
    {
        if (element is null) return "";
        var said = string.Concat(element.Nodes().Select(node => node is XElement inner
            ? $"`{(inner.Value.Length > 0 ? inner.Value : Renamed(inner.Attributes().First().Value.Split('.', ':')[^1]))}`"
            : node.ToString()));
        return Spaces().Replace(System.Net.WebUtility.HtmlDecode(said), " ").Trim();
    }

    private static string Typed(NullabilityInfo info)
    {
        var type = info.Type;
        if (Nullable.GetUnderlyingType(type) is { } inner) return Name(inner) + "?";
        var name = type.IsGenericType && type.GetGenericTypeDefinition() == typeof(ImmutableArray<>)
            ? $"list of {Typed(info.GenericTypeArguments[0])}"
            : type.IsGenericType
            ? $"{Name(type)} of {string.Join(", ", info.GenericTypeArguments.Select(Typed))}"
            : Name(type);
        return !type.IsValueType && info.ReadState == NullabilityState.Nullable ? name + "?" : name;
    }

    private static string Name(Type type) => type == typeof(string)
        ? "string"
        : type == typeof(int)
        ? "int"
        : type == typeof(bool)
        ? "bool"
        : type == typeof(double)
        ? "number"
        : type.Name.Split('`')[0];

    private static string Renamed(string name) => WordStart().Replace(name, "_$1").ToLowerInvariant();

    [GeneratedRegex("(?<!^)([A-Z])")]
    private static partial Regex WordStart();

    [GeneratedRegex(@"\s+")]
    private static partial Regex Spaces();
}
