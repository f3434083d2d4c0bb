using System.Collections.Immutable;
using System.Reflection;
using System.Security.Cryptography;
using System.Text;
using Archive.Diagnostics;
using Archive.Records.Reading;
using Archive.Records.Reading.Format;
using Archive.Records.Reference;
using Archive.Records.Writing;

namespace Archive.Starter;

/// <summary>A small archive with comments that teach, and the settings for git, editors and forges around it.</summary>
public static class StarterArchive
{
    /// <summary>The folder that the record is in.</summary>
    public const string Content = "content";

    private const string Resources = "starter/";
    private const string Statement = Content + "/archive.yaml";
    private const string Photo = Content + "/photos/P-0001.jpg";

    /// <summary>The files, the record last: a folder that is written only in part is not taken for an archive.</summary>
    /// <param name="answers">What the curator said.</param>
    /// <param name="version">The version of asfound that forges install.</param>
    public static ImmutableArray<StarterFile> Create(StarterAnswers answers, string version)
    {
        var files = Assembly.GetExecutingAssembly().GetManifestResourceNames()
            .Where(name => name.StartsWith(Resources, StringComparison.Ordinal))
            .ToDictionary(name => Place(name[Resources.Length..]), Read, StringComparer.Ordinal);
        var checksum = Convert.ToHexStringLower(SHA256.HashData(files[Photo]));
        foreach (var (path, bytes) in files.Where(file => file.Key != Photo).ToList())
            files[path] = Encoding.UTF8.GetBytes(Filled(Encoding.UTF8.GetString(bytes), answers, version, checksum));
        foreach (var document in RecordFormats.All)
            files[$"{Content}/.schemas/{JsonSchemas.FileName(document)}"] = Encoding.UTF8.GetBytes(JsonSchemas.Write(document));
        files[EditorSettings.Place] = Encoding.UTF8.GetBytes(EditorSettings.Write(Content));
        return
        [
            .. files.Select(file => new StarterFile(file.Key, file.Value))
                .OrderBy(file => file.Path.StartsWith(Content + "/", StringComparison.Ordinal))
                .ThenBy(file => file.Path, StringComparer.Ordinal),
        ];
    }

    /// <summary>What is wrong with the answers, by the rules of archive.yaml; null if nothing is.</summary>
    public static Diagnostic? Problem(StarterAnswers answers) =>
        RecordReader.Read(InMemoryFolder.Empty.With(
            "archive.yaml", Filled(Encoding.UTF8.GetString(Read(Resources + Statement)), answers, "", ""))).Diagnostics.FirstOrDefault();

    private static string Filled(string text, StarterAnswers answers, string version, string checksum) => text
        .Replace("{{title}}", Line("title", answers.Title), StringComparison.Ordinal)
        .Replace("{{custodian}}", Line("custodian", answers.Custodian, "Your museum"), StringComparison.Ordinal)
        .Replace("{{base}}", Line("base", answers.Base, "https://archive.example/your-museum/"), StringComparison.Ordinal)
        .Replace("{{units}}", Line("units", answers.Units), StringComparison.Ordinal)
        .Replace("{{language}}", Line("language", answers.Language), StringComparison.Ordinal)
        .Replace("{{version}}", version, StringComparison.Ordinal)
        .Replace("{{photo}}", checksum, StringComparison.Ordinal);

    // What is not known yet is a comment that shows what it would look like.
    private static string Line(string key, string? value, string example = "")
    {
        if (value is null) return $"# {key}: {example}";
        using var line = new StringWriter();
        YamlWriter.Write(line, yaml => yaml.Key(key, value));
        return line.ToString().TrimEnd('\n');
    }

    // Names of resources have the separators of the machine that the tool was built on.
    private static string Place(string resource) => string.Join(
        '/', resource.Split('/', '\\').Select(part => part.StartsWith("dot-", StringComparison.Ordinal) ? "." + part[4..] : part));

    private static byte[] Read(string resource)
    {
        var assembly = Assembly.GetExecutingAssembly();
        var name = assembly.GetManifestResourceNames().Single(each => each.Replace('\\', '/') == resource.Replace('\\', '/'));
        using var stream = assembly.GetManifestResourceStream(name)!;
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }
}

/// <summary>A file of a new archive.</summary>
/// <param name="Path">Its path, separated by <c>/</c>.</param>
/// <param name="Bytes">What is in it.</param>
public sealed record StarterFile(string Path, byte[] Bytes);
