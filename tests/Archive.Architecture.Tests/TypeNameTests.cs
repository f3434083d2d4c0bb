using System.Reflection;
using System.Runtime.CompilerServices;
using Xunit;

namespace Archive.Architecture.Tests;

/// <summary>
/// A name means one thing in all projects. A nested type is always read with the type around it, so it may be called like another.
/// </summary>
public class TypeNameTests
{
    // Names that two projects may both declare, each with the reason.
    private static readonly Dictionary<string, string> Exceptions = new(StringComparer.Ordinal);

    [Fact]
    public void No_two_projects_declare_a_type_of_the_same_name()
    {
        var twice = Twice(Repository.Projects.Select(project =>
            (project, ProjectTests.AssemblyOf(project).GetTypes().Where(IsDeclared).Select(PlainName))));
        Assert.Equal(Exceptions.Keys.Order(StringComparer.Ordinal), twice.Select(found => found.Name).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void A_name_that_two_projects_declare_is_found()
    {
        Assert.Equal([("Two", "P Q")], Twice([("P", ["One", "Two", "Two"]), ("Q", ["Two", "Three"])]));
        Assert.Equal("List", PlainName(typeof(List<>)));
    }

    private static IEnumerable<(string Name, string Projects)> Twice(IEnumerable<(string Project, IEnumerable<string> Names)> projects) =>
        from pair in projects.SelectMany(project => project.Names.Distinct().Select(name => (project.Project, Name: name)))
        group pair.Project by pair.Name into declaring
        where declaring.Skip(1).Any()
        select (declaring.Key, string.Join(' ', declaring));

    // What the compiler and its generators add lies in their own namespaces, or says that it is generated.
    private static bool IsDeclared(Type type) =>
        !type.IsNested
            && type.Namespace?.StartsWith("Archive.", StringComparison.Ordinal) == true
            && type.GetCustomAttribute<CompilerGeneratedAttribute>() is null;

    private static string PlainName(Type type) => type.Name.Split('`')[0];
}
