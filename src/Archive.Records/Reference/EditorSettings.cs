using System.Text;
using Archive.Records.Reading.Format;

namespace Archive.Records.Reference;

/// <summary>Settings by which editors with a YAML language server find the schema of each folder.</summary>
public static class EditorSettings
{
    /// <summary>Where editors look for them, from the folder that contains the archive's.</summary>
    public const string Place = ".vscode/settings.json";

    /// <summary>Writes the settings: JSON with comments.</summary>
    /// <param name="content">
    /// The archive's folder, seen from the folder that is opened in the editor. Schemas are in its <c>.schemas</c>.
    /// </param>
    public static string Write(string content)
    {
        var text = new StringBuilder()
            .Append("{\n")
            .Append("  // Which schema is for which folder. An editor with a YAML language server completes keys and checks values by them.\n")
            .Append("  // A schema cannot complete or check ids of other records: `asfound check` does.\n")
            .Append("  \"yaml.schemas\": {\n")
            .AppendJoin(",\n", RecordFormats.All.Where(document => document.IsYaml).Select(document =>
                $"    \"./{content}/.schemas/{JsonSchemas.FileName(document)}\": "
                    + $"\"{content}/{document.Place}{(document.IsListed ? "**/*.yaml" : "")}\""));
        return text.Append("\n  }\n}\n").ToString();
    }
}
