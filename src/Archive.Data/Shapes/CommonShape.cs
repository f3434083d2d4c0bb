using System.Globalization;
using Archive.Data.Tables;
using Archive.Records.Model;

namespace Archive.Data.Shapes;

// What data files say of every record, whatever its kind: who it is first, prose and whereabouts in the record last.
internal static class CommonShape
{
    internal static DataShape<T> Head<T>()
        where T : ArchiveRecord => new DataShape<T>()
        .Text("id", "id of the record; never used again", record => record.Id)
        .Text("page", "address of its page, below `base`", record => $"{record.RecordKind.Folder()}/{record.Id}/")
        .List("was", "former ids, which still lead here", record => record.Was.Select(was => was.Value))
        .Fact("withdrawn", "why it was withdrawn; absent otherwise", record => record.Withdrawn)
        .Fact("name", "what people call it", record => record.Name);

    internal static DataShape<T> Tail<T>(this DataShape<T> shape)
        where T : ArchiveRecord => shape
        .Fact("about", "description", record => record.About, "markdown")
        .Fact("condition", "condition as found", record => record.Condition, "markdown")
        .Fact("note", "remark", record => record.Note, "markdown")
        .List("accepts", "warnings that it accepts, each with the reason", record => record.Accepts.Select(Accepted))
        .Text("stated_in", "file of the record, and the line on which its id stands, counted from 1", StatedIn);

    internal static string Accepted(AcceptedWarning accepted) => $"{accepted.Code}: {accepted.Reason}";

    private static string StatedIn(ArchiveRecord record) =>
        $"{record.IdSpan.Path}:{(record.IdSpan.From.Line + 1).ToString(CultureInfo.InvariantCulture)}";
}
