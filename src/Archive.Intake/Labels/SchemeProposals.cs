using System.Collections.Immutable;
using Archive.Plans;
using Archive.Plans.HandTags;
using Archive.Records.Model;
using Archive.SchemeSearch.Proposals;

namespace Archive.Intake.Labels;

/// <summary>What typed labels say of how labels are read on this machine.</summary>
/// <param name="PerEnd">What tagging one end by hand takes.</param>
public sealed record SchemeProposals(TypedLabelFile File, int Ports, TimeSpan PerEnd, SchemeAnswer? Answer)
{
    /// <summary>Reads labels, and searches for schemes if all of them can be read.</summary>
    /// <param name="ends">Ends that would be tagged by hand; null for those of the hand-tag list.</param>
    public static SchemeProposals Find(PlanContext context, string path, ReadOnlySpan<byte> bytes, int? ends)
    {
        ImmutableArray<string> ports = [.. PortsOf(context.Record)];
        var file = TypedLabelFile.Read(path, bytes, ports);
        var perEnd = TaggingTime.PerEnd(context);
        return new SchemeProposals(file, ports.Length, perEnd, file.Diagnostics.Any(each => each.Severity == Diagnostics.Severity.Error)
            ? null
            : SchemeFinder.Find(new SchemeQuestion(file.Labels, ports, ends ?? TaggingTime.Ends(context), perEnd)));
    }

    private static IEnumerable<string> PortsOf(ArchiveModel record) =>
        from frame in record.Frames
        where !frame.IsWithdrawn
        from position in frame.Positions
        from port in position.Ports.SelectMany(range => range.Names)
        select $"{frame.Id}/{position.Id.Value}/{port}";
}
