using System.Collections.Immutable;
using System.Security.Cryptography;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Proposals;
using Archive.Records.Facts;
using Archive.Records.Mappings;
using Archive.Records.Model;
using Archive.Spreadsheets.Model;
using Archive.Spreadsheets.Reading;

namespace Archive.Intake.Spreadsheets;

/// <summary>What a spreadsheet says, and how it was read.</summary>
/// <param name="Sheets">The mapping: the one that was given, or the one that is proposed.</param>
/// <param name="Facts">What its cells say; cells that cannot be read are in <paramref name="Diagnostics"/>.</param>
/// <param name="Diagnostics">If one of them is an error, nothing was read.</param>
/// <param name="LeftOut">Columns and sheets that say nothing of the record, in words.</param>
public sealed record SpreadsheetImport(
    ImmutableArray<SheetMapping> Sheets,
    ImmutableArray<ProposedFact> Facts,
    ImmutableArray<Diagnostic> Diagnostics,
    ImmutableArray<string> LeftOut)
{
    // A list may name what another sheet of the same spreadsheet brings: cables end at frames, photos show cables.
    private static readonly ImmutableArray<RecordKind> Order =
        [RecordKind.CableKind, RecordKind.Frame, RecordKind.Tray, RecordKind.Cable, RecordKind.Photo, RecordKind.Event];

    // About 1 kB of memory each: 200,000 cables with ten facts.
    private const int MostFacts = 2_000_000;

    /// <summary>Reads a spreadsheet.</summary>
    /// <param name="stream">The spreadsheet; can seek, and is closed.</param>
    /// <param name="file">Its name, as the curator typed it.</param>
    /// <param name="records">All records of the archive.</param>
    /// <param name="schemes">The label schemes of the archive.</param>
    /// <param name="mapping">How its sheets are read; null to propose that.</param>
    /// <param name="rejections">What was rejected before; null for nothing.</param>
    /// <param name="mostFacts">How many facts are read at most.</param>
    public static SpreadsheetImport Read(
        Stream stream,
        string file,
        ImmutableArray<RawRecord> records,
        IEnumerable<LabelScheme> schemes,
        ImmutableArray<SheetMapping>? mapping,
        Rejections? rejections = null,
        int mostFacts = MostFacts,
        CancellationToken cancellation = default)
    {
        try
        {
            var sum = Convert.ToHexStringLower(SHA256.HashData(stream));
            stream.Position = 0;
            using var workbook = Workbook.Open(stream, Path.GetFileName(file));
            var known = new KnownRecords(records, schemes);
            ImmutableArray<string> leftOut = [];
            if (mapping is null) (mapping, leftOut) = MappingProposal.Find(workbook, known, cancellation);
            if (mapping is [])
            {
                return Refused([], DiagnosticDescriptors.WrongSheet.At(
                    new SourceText(file, "").Whole,
                    "no sheet has heads by which its rows are known as cables, frames, kinds, trays, photos or events",
                    "write the mapping yourself: see asfound explain AF1621")) with
                { LeftOut = leftOut };
            }

            var reader = new SheetReader(file, sum, known, mostFacts)
            {
                Current = new CurrentRecords(records),
                Photos = new KnownPhotos(records),
                Events = new EventRows(records, (rejections ?? new Rejections([])).OfRecords),
            };
            foreach (var sheet in mapping.Value.OrderBy(sheet => Order.IndexOf(sheet.Kind)))
                reader.Read(workbook, sheet, cancellation);
            var isWrong = reader.Diagnostics.Any(each => each.Severity == Severity.Error);
            return new SpreadsheetImport(mapping.Value, isWrong ? [] : [.. reader.Facts], [.. reader.Diagnostics], leftOut);
        }
        catch (SpreadsheetException wrong)
        {
            return Refused(mapping ?? [], DiagnosticDescriptors.UnreadableSpreadsheet.At(
                new SourceText(file, "").Whole, wrong.Message, wrong.Help));
        }
    }

    private static SpreadsheetImport Refused(ImmutableArray<SheetMapping> sheets, Diagnostic why) => new(sheets, [], [why], []);
}
