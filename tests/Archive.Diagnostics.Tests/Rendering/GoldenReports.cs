using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Nodes;
using Archive.Diagnostics.Rendering;
using Json.Schema;
using Xunit;

namespace Archive.Diagnostics.Tests.Rendering;

public sealed class GoldenReports
{
    [Fact]
    public void Text_is_as_expected() =>
        Holds("report.txt", to => TextReport.Write(to, SampleFaults.All, TextStyle.Plain with { Width = 80 }));

    [Fact]
    public void Json_is_as_expected() => Holds("report.json", to => JsonReport.Write(to, SampleFaults.All));

    [Fact]
    public void Sarif_is_as_expected() => Holds("report.sarif", to => SarifReport.Write(to, SampleFaults.All, "1.2.3"));

    [Fact]
    public void Github_is_as_expected() => Holds("report.github.txt", to => GithubReport.Write(to, SampleFaults.All));

    [Fact]
    public void Gitlab_is_as_expected() => Holds("report.gitlab.json", to => GitlabReport.Write(to, SampleFaults.All));

    /// <summary>GitLab shows only the first of entries with one fingerprint.</summary>
    [Fact]
    public void Equal_errors_are_told_apart_and_moved_ones_are_not_new()
    {
        var one = SampleFaults.All[0];
        var moved = one with { Place = one.Place with { Line = one.Place.Line + 3 } };
        Assert.Equal(2, Fingerprints([one, one]).Distinct().Count());
        Assert.Equal(Fingerprints([one]), Fingerprints([moved]));

        static string[] Fingerprints(ImmutableArray<RenderedDiagnostic> all) =>
            [.. JsonNode.Parse(Written(to => GitlabReport.Write(to, all)))!.AsArray()
                .Select(each => each!["fingerprint"]!.GetValue<string>())];
    }

    [Fact]
    public void Sarif_is_valid_against_the_published_schema()
    {
        // The schema is draft 4; of what it uses, only the name of the id differs from draft 7.
        var draft4 = File.ReadAllText(Path.Combine(Folder(), "sarif-2.1.0-rtm.5.json"));
        var schema = JsonNode.Parse(draft4)!.AsObject();
        schema.Remove("id");
        schema["$schema"] = "http://json-schema.org/draft-07/schema#";
        var rule = JsonSchema.FromText(schema.ToJsonString());
        Assert.True(IsValid(rule, Written(to => SarifReport.Write(to, SampleFaults.All, "1.2.3"))));
        Assert.True(IsValid(rule, Written(to => SarifReport.Write(to, [], "1.2.3"))));
        Assert.False(IsValid(rule, """{"version": "2.1.0", "runs": [{"results": []}]}"""));
    }

    private static bool IsValid(JsonSchema schema, string json)
    {
        using var document = JsonDocument.Parse(json);
        return schema.Evaluate(document.RootElement, new EvaluationOptions { RequireFormatValidation = true }).IsValid;
    }

    private static string Written(Action<TextWriter> write)
    {
        using var to = new StringWriter();
        write(to);
        return to.ToString();
    }

    // ASFOUND_WRITE=1 writes the expected files again; read the difference before committing it.
    private static void Holds(string name, Action<TextWriter> write)
    {
        var file = Path.Combine(Folder(), "expected", name);
        var written = Written(write);
        if (Environment.GetEnvironmentVariable("ASFOUND_WRITE") == "1") File.WriteAllText(file, written);
        Assert.Equal(File.ReadAllText(file), written);
    }

    private static string Folder() => Path.Combine(Repository.Root, "tests", "Archive.Diagnostics.Tests", "Rendering");
}
