using System.CommandLine;
using System.Text;
using Archive.Cli.Options;
using Archive.Cli.Output;
using Archive.Diagnostics;
using Archive.Diagnostics.Rendering;
using Archive.Records.Reading.Format;
using Archive.Records.Reading.Values;
using Archive.Records.Reference;
using Archive.Storage;

namespace Archive.Cli.Commands;

/// <summary><c>asfound format</c>: how the record is written: kinds, keys, and schemas for editors.</summary>
internal static class FormatCommand
{
    /// <summary>How the description can be written.</summary>
    internal static readonly string[] Formats = ["text", "json"];

    private static readonly Option<string> SchemaOption = new("--schema")
    {
        HelpName = "DIR",
        Description =
            "write a JSON Schema (2020-12) for each kind to this folder; by them editors complete keys and check values, but not ids of other records",
    };

    private static readonly Option<string> FormatOption = new Option<string>("--format")
    {
        HelpName = "FORMAT",
        Description = """
            how the kind is described (text):
              text  for people, in Markdown
              json  its JSON Schema
            """,
    }.AcceptOnlyFromAmong(Formats);

    private static readonly Argument<string> KeyArgument = new("KIND[.KEY]")
    {
        Arity = ArgumentArity.ZeroOrOne,
        Description = "a folder or archive.yaml, or a key of it, such as cables.ends.at; without it, the kinds are listed",
    };

    /// <summary>The command and what it takes.</summary>
    internal static Command Create(Terminal terminal) => CommandFactory.Create(
        "format",
        "how records are written: kinds, keys, schemas for editors",
        Run,
        terminal,
        KeyArgument,
        SchemaOption,
        FormatOption);

    internal static ExitCode Run(Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        if (arguments.Get(SchemaOption) is { } folder) return WriteSchemas(folder, terminal);
        var isJson = arguments.Get(FormatOption) == "json";
        if (arguments.Get(KeyArgument) is not { } what)
        {
            if (isJson) throw new WrongCommandLineException(
                "--format json needs a kind", "name one, as in: asfound format frames --format json");
            return List(terminal);
        }

        var names = what.Split('.');
        // archive.yaml is a file's name, not a key of the archive.
        if (names is ["archive", "yaml", .. var behind]) names = ["archive", .. behind];
        var document = RecordFormats.Find(names[0]) ?? throw Unknown(
            $"there is no kind of record {names[0]}", RecordFormats.Nearest(names[0]), "asfound format lists all of them");
        if (names.Length == 1)
        {
            terminal.Out.Write(isJson ? JsonSchemas.Write(document) : FormatText.Page(document));
            return ExitCode.Success;
        }

        if (isJson) throw new WrongCommandLineException(
            "--format json describes a whole kind", $"type: asfound format {document.Name} --format json");
        terminal.Out.Write(FormatText.Key($"{document.Name}.{string.Join('.', names[1..])}", Find(document, names)));
        return ExitCode.Success;
    }

    private static FormatKey Find(DocumentFormat document, string[] names)
    {
        MappingFormat? mapping = document.Mapping;
        FormatKey? key = null;
        for (var i = 1; i < names.Length; i++)
        {
            var above = string.Join('.', names[..i]);
            if (mapping is null) throw new WrongCommandLineException($"{above} has no keys below it", $"type: asfound format {above}");
            key = mapping.Find(names[i]) ?? (i == 1 ? document.Table?.Find(names[i]) : null) ?? throw Unknown(
                $"{above} has no key {names[i]}",
                NearestName.Find(names[i], mapping.Keys.Select(known => known.Name)),
                $"its keys: {string.Join(", ", mapping.Keys.Select(known => known.Name))}");
            mapping = FormatText.Below(key.Node);
        }

        return key!;
    }

    private static ExitCode List(Terminal terminal)
    {
        var width = RecordFormats.All.Max(document => document.Place.Length);
        foreach (var document in RecordFormats.All) terminal.Out.Write($"{document.Place.PadRight(width)}  {document.Meaning}\n");
        terminal.Out.Write("\nasfound format frames shows the keys of a kind, asfound format cables.ends.at one key.\n");
        return ExitCode.Success;
    }

    private static ExitCode WriteSchemas(string folder, Terminal terminal)
    {
        if (folder.Length == 0) throw new WrongCommandLineException("--schema is empty", "name a folder with --schema");
        if (File.Exists(folder)) throw new WrongCommandLineException($"{folder} is a file", "name a folder with --schema");
        foreach (var document in RecordFormats.All)
        {
            WholeFile.Replace(
                Path.GetFullPath(Path.Combine(folder, JsonSchemas.FileName(document))),
                file => file.Write(Encoding.UTF8.GetBytes(JsonSchemas.Write(document))));
        }

        terminal.Error.Write(
            $"{RecordFormats.All.Length} schemas written to {VisibleText.From(folder)}. They complete keys and check values; they cannot complete ids.\n");
        return ExitCode.Success;
    }

    private static WrongCommandLineException Unknown(string message, string? near, string otherwise) =>
        new(message, near is null ? otherwise : $"did you mean {near}; {otherwise}");
}
