using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Wiring.Labels;

/// <summary>
/// What the print of each cable says, compared with what was seen of that cable: checks and readings (<see cref="LabelReadings"/>) begin
/// with it.
/// </summary>
public sealed class JudgedPrint
{
    private readonly LabelMeanings _places;

    private JudgedPrint(ArchiveModel record)
    {
        Record = record;
        Schemes = [.. CompiledScheme.Tried(record)];
        var standing = record.Cables.Where(cable => !cable.IsWithdrawn).ToArray();
        Labels = ImmutableArray.Create(PrintedLabel.ReadAll(standing, Schemes, LabelCosts.MostForReading));
        _places = new LabelMeanings(record, standing);
        Readings = [.. Labels.Select(each => LabelReadings.Judge(each, _places))];
    }

    /// <summary>Reads all labels.</summary>
    /// <remarks>
    /// Linear in the record: each label is read once by each scheme, each place looked up by hash. Beyond <see cref="LabelCosts"/> labels
    /// are not read.
    /// </remarks>
    public static JudgedPrint From(ArchiveModel record) => new(record);

    internal ArchiveModel Record { get; }

    /// <summary>The schemes that stand, compiled, by id.</summary>
    internal ImmutableArray<CompiledScheme> Schemes { get; }

    /// <summary>One entry for each cable that stands, by id.</summary>
    internal ImmutableArray<PrintedLabel> Labels { get; }

    /// <summary>The same cables, each judged by itself.</summary>
    internal ImmutableArray<CableReading> Readings { get; }

    /// <summary>The places that print can mean, for one thread.</summary>
    internal LabelMeanings Places() => _places.Beside();
}
