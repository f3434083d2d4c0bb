using System.CommandLine;
using Archive.Cli.Options;
using Archive.Cli.Output;
using Archive.Diagnostics.Rendering;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Records.Reading.Format;
using Archive.Records.Terms;
using Archive.Starter;
using Archive.Storage;

namespace Archive.Cli.Commands;

/// <summary><c>asfound new</c>: a new archive, or a new record to be filled in.</summary>
internal static class NewCommand
{





    private static readonly Option<string> KindOption = new("--kind")
    {
        HelpName = "NOUN",
        Description = $"make a record of this kind instead: {FindCommand.KindsInWords}",
    };

    private static readonly Option<string> AppendOption = new("--append")
    {
        HelpName = "FILE",
        Description = "add the record to the end of this file, which is made if it does not exist (prints it)",
    };

    private static readonly Argument<string> NameArgument = new("DIR|ID")
    {
        Arity = ArgumentArity.ZeroOrOne,
        Description = "the folder of the new archive; with --kind, the id of the new record",
    };

    /// <summary>The command and what it takes.</summary>
    internal static Command Create(Terminal terminal) => CommandFactory.Create(
        "new",
        "start an archive, or a record",
        Run,
        terminal,
        NameArgument,
        NewArchiveQuestions.TitleOption,
        NewArchiveQuestions.CustodianOption,
        NewArchiveQuestions.BaseOption,
        NewArchiveQuestions.UnitsOption,
        NewArchiveQuestions.LanguageOption,
        KindOption,
        AppendOption);

    internal static ExitCode Run(Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        if (arguments.Get(KindOption) is { } kind) return NewRecord(kind, arguments, terminal, cancellation);
        if (arguments.Get(AppendOption) is not null)
            throw new WrongCommandLineException("--append needs --kind", "type: asfound new --kind frame ID --append FILE");
        return NewArchive(arguments, terminal);
    }

    private static ExitCode NewArchive(Arguments arguments, Terminal terminal)
    {
        if (arguments.Get(NameArgument) is not { Length: > 0 } typed)
            throw new WrongCommandLineException("new needs the name of a folder", "type, for example: asfound new our-archive");
        var path = Path.TrimEndingDirectorySeparator(Path.GetFullPath(typed));
        if (File.Exists(path)) throw new WrongCommandLineException($"{typed} is a file", "name a folder that does not exist yet");
        if (new FileInfo(path).LinkTarget is not null)
            throw new WrongCommandLineException($"{typed} is a link", "name a folder that does not exist yet");
        if (Directory.Exists(path) && Directory.EnumerateFileSystemEntries(path).Any())
        {
            throw new WrongCommandLineException(
                $"{typed} is not empty, and a new archive is never written over files",
                "name a folder that does not exist yet, or an empty one");
        }

        // An archive within an archive's folder would be a folder of it that has no meaning.
        if (ArchiveLocation.Around(path) is { } other)
            throw new WrongCommandLineException($"{typed} would be inside the archive {other}", "name a folder outside it");
        var files = StarterArchive.Create(NewArchiveQuestions.Ask(arguments, path, terminal), HelpPage.Version);
        WholeFolder.Create(path, [.. files.Select(file => (file.Path, file.Bytes))]);
        var shown = VisibleText.From(typed);
        terminal.Error.Write($"""
            A new archive is in {shown}: {ResultWriter.Number(files.Length, "file")}, with an example to change. {shown}/README.md says how to go on.
              cd {shown}
              asfound preview

            """.ReplaceLineEndings("\n"));
        return ExitCode.Success;
    }

    private static ExitCode NewRecord(string kind, Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        var document = RecordFormats.Find(kind);
        if (document is null or { Name: "archive" })
        {
            var all = string.Join(", ", RecordFormats.All.Skip(1).Select(each => each.Mapping.Noun));
            throw new WrongCommandLineException(
                $"there is no kind of record {kind}",
                document is null && RecordFormats.Nearest(kind) is { } near ? $"did you mean {near}; kinds are {all}" : $"kinds are {all}");
        }

        var noun = document.Mapping.Noun;
        if (arguments.Get(NameArgument) is not { Length: > 0 } id)
            throw new WrongCommandLineException($"the id of the new {noun} is missing", $"type, for example: asfound new --kind {kind} ID");
        if (!RecordId.IsValid(id))
        {
            throw new WrongCommandLineException(
                $"{id} cannot be an id",
                "an id has up to 64 letters, digits, full stops, underscores and hyphens, and begins with a letter or digit");
        }

        var file = arguments.Get(AppendOption);
        var record = RecordSkeleton.Write(document, id, Ids(file, cancellation));
        if (file is null)
        {
            terminal.Out.Write(record);
            return ExitCode.Success;
        }

        var path = Path.GetFullPath(file);
        RequireItsFolder(document, file, path);
        var added = RecordSkeleton.Append(document, File.Exists(path) ? File.ReadAllBytes(path) : [], record, id, out var why)
            ?? throw new WrongCommandLineException($"{file} {why}", "name another file, or leave out --append to see the record");
        WholeFile.Replace(path, stream => stream.Write(added));
        terminal.Error.Write(
            $"{VisibleText.From(file)}: {noun} {id} was added at the end. Fill it in; asfound check says what is missing.\n");
        return ExitCode.Success;
    }

    // The folder says what kind of record a file has.
    private static void RequireItsFolder(DocumentFormat document, string file, string path)
    {
        var ending = document.IsYaml ? ".yaml" : ".md";
        var help = $"name a file such as {document.Place}new{ending}";
        if (!path.EndsWith(ending, StringComparison.Ordinal)) throw new WrongCommandLineException($"{file} does not end in {ending}", help);
        if (Directory.Exists(path)) throw new WrongCommandLineException($"{file} is a folder", help);
        if (SpecialFile.KindOf(path) is { } what) throw new WrongCommandLineException($"{file} is {what}, not a file", help);
        if (ArchiveLocation.Around(path) is { } archive
            && !Path.GetRelativePath(archive, path).Replace('\\', '/').StartsWith(document.Place, StringComparison.Ordinal))
        {
            throw new WrongCommandLineException(
                $"{file} is not in the folder {document.Place} of the archive",
                $"the folder decides what a file contains: name one in {document.Place}");
        }
    }

    // What the archive has already, so that the new record refers to something that is there.
    private static Func<string, string?> Ids(string? file, CancellationToken cancellation)
    {
        var near = file is null ? null : ArchiveLocation.Around(Path.GetFullPath(file));
        var content = near ?? ArchiveLocation.Find(Environment.CurrentDirectory);
        if (!File.Exists(Path.Combine(content, ArchiveLocation.Statement))) return _ => null;
        var first = RecordReader.Read(new ArchiveFolder(Path.GetFullPath(content)), cancellation).Records
            .Where(record => record.Withdrawn is null)
            .GroupBy(record => record.RecordKind)
            .ToDictionary(records => records.Key.Noun(), records => records.First().Id, StringComparer.Ordinal);
        return noun => first.GetValueOrDefault(noun == "record" ? RecordKind.Frame.Noun() : noun);
    }
}
