using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Archive.Git;
using Archive.Preservation.Bags;
using Archive.Publishing.Requests;
using Archive.Records.Model;

namespace Archive.Preservation.Sealing;

/// <summary>
/// The papers of a bag: whose record it is, from which state of it the bag was made, what was done, what was withheld, how it is checked.
/// </summary>
/// <param name="options">What was to be sealed.</param>
/// <param name="built">What came of its check and its site.</param>
/// <param name="git">The commit it stands at.</param>
/// <param name="contents">What went into the bag.</param>
internal sealed class SealDocuments(SealOptions options, ParseResult parsed, BuildResult built, GitState git, SealedContents contents)
{
    private const string WithheldList = "withheld.txt";

    private string Name => Path.GetFileName(options.To);

    private string Title => parsed.Statement?.Title?.Value ?? Name;

    /// <summary>Writes the papers of the bag.</summary>
    /// <param name="bag">Full path of its folder.</param>
    internal void Write(string bag)
    {
        var writer = new BagWriter(bag, contents.Payload);
        List<string> about =
        [
            "  data/record   the record as it was written: YAML, tables, photos as they were taken",
            "  data/site     the site that was made from it: open data/site/index.html",
            "  data/format   how the record is written, for anyone without a program that reads it; begin with record-format.md"
        ];
        List<(string, byte[])> more = [(EventList.FileName, EventList.Write(Name, Events(), options.Tool, options.Now))];
        if (!contents.Withheld.IsEmpty)
        {
            about.Add("  withheld.txt  originals that are not in this bag, and why");
            more.Add((WithheldList, Encoding.UTF8.GetBytes(
                $"{Withheld}\n\n{string.Concat(contents.Withheld.Select(file => $"{file.Sha256}  {BagPath.Encode(file.Path)}\n"))}")));
        }

        more.Add((CheckingGuide.FileName, Encoding.UTF8.GetBytes(CheckingGuide.Text(Title, contents.Payload, about))));
        writer.Write(Info(writer.Oxum, Title), more);
    }

    /// <summary>Writes the papers of the bag of withheld originals.</summary>
    /// <param name="bag">Full path of its folder.</param>
    internal void WriteApart(string bag)
    {
        var writer = new BagWriter(bag, contents.Apart);
        var title = $"{Title}: originals that show what may not be published. Keep this bag apart from the other.";
        var guide = CheckingGuide.Text(title, contents.Apart, ["  data/record   originals, in their places in the record"]);
        writer.Write(Info(writer.Oxum, title), [
            (EventList.FileName, EventList.Write(Name + "-withheld", Events(), options.Tool, options.Now)),
            (CheckingGuide.FileName, Encoding.UTF8.GetBytes(guide))
        ]);
    }

    private string Withheld => contents.Withheld.IsEmpty ? "" : string.Create(
        CultureInfo.InvariantCulture,
        $"Originals that may not be published are not in this bag: {contents.Withheld.Length} {(contents.Withheld.Length == 1 ? "file" : "files")}, {(contents.Apart.IsEmpty ? "left out" : $"sealed apart in {Name}-withheld")}.");

    private IEnumerable<(string Label, string Value)> Info(string oxum, string title)
    {
        var statement = parsed.Statement;
        if (statement?.Custodian is { } custodian) yield return ("Source-Organization", custodian.Value);
        yield return ("External-Description", statement?.AsFound is { } found ? $"{title}. As found {found.Value}." : title);
        if (statement?.Base is { } address) yield return ("External-Identifier", address.Value.ToString());
        yield return ("Bagging-Date", options.Now.UtcDateTime.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
        yield return ("Payload-Oxum", oxum);
        yield return ("Bag-Software-Agent", options.Tool);
        yield return (
            "Internal-Sender-Description", $"Record at git commit {git.Says}.{(contents.Withheld.IsEmpty ? "" : $" {Withheld}")}");
        if (git.Commit is { } commit) yield return ("Internal-Sender-Identifier", $"git:{commit}");
        if (statement?.Licence is { } licence) yield return ("Rights", licence.Value);
        if (statement?.Credit is { } credit) yield return ("Credit", credit.Value);
    }

    private ImmutableArray<PreservationEvent> Events()
    {
        var (errors, warnings, notes) = built.Counts;
        var events = ImmutableArray.CreateBuilder<PreservationEvent>();
        events.Add(new(
            "validation",
            "The record was checked against every rule of its format.",
            string.Create(CultureInfo.InvariantCulture, $"{errors} errors, {warnings} warnings, {notes} notes")));
        events.Add(new("creation", "The site in data/site was made from the record.", string.Create(
            CultureInfo.InvariantCulture,
            $"{contents.Payload.Count(file => file.Path.StartsWith("data/site/", StringComparison.Ordinal))} files")));
        events.Add(new("replication", $"The record was copied as it was written, at git commit {git.Says}.", string.Create(
            CultureInfo.InvariantCulture,
            $"{contents.Payload.Count(file => file.Path.StartsWith("data/record/", StringComparison.Ordinal))} files")));
        if (!contents.Withheld.IsEmpty) events.Add(new(contents.Apart.IsEmpty
            ? "redaction"
            : "information package splitting", "Originals that may not be published were withheld.", Withheld));
        events.Add(new(
            "message digest calculation",
            "SHA-512 and SHA-256 of every file were calculated while it was copied.",
            "manifest-sha512.txt, manifest-sha256.txt"));
        events.Add(new("information package creation", "It was made into a bag according to RFC 8493, version 1.0.", Name));
        events.Add(
            new("fixity check", "Names, sizes and the checksums of the lists were read back before the bag got its name.", "as written"));
        return events.ToImmutable();
    }
}
