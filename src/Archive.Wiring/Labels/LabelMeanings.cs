using Archive.Records.Checks;
using Archive.Records.Model;
using Archive.Records.References;
using Archive.Records.Terms;

namespace Archive.Wiring.Labels;

// The places that print can mean: whether they exist, by which id their frame goes now, and which cable was seen to hold them.
internal sealed class LabelMeanings
{
    private const int MostAsked = 100_000;

    private readonly ArchiveModel _record;
    private readonly PlaceIndex _places;
    private readonly Dictionary<Address, string> _holders;
    private readonly Dictionary<string, Address?> _asked = new(StringComparer.Ordinal);

    private LabelMeanings(ArchiveModel record, Dictionary<Address, string> holders) =>
        (_record, _places, _holders) = (record, new PlaceIndex(record), holders);

    internal LabelMeanings(ArchiveModel record, IEnumerable<Cable> standing)
    {
        _record = record;
        _places = new PlaceIndex(record);
        _holders = new Dictionary<Address, string>(2 * record.Cables.Length);
        foreach (var cable in standing)
        {
            foreach (var end in cable.Ends)
            {
                if (end.At is { } at && at.Value.Port is not null) _holders.TryAdd(Now(at.Value), cable.Id);
            }
        }
    }

    // The same places for another thread: who holds them is shared, and no longer reported anything.
    internal LabelMeanings Beside() => new(_record, _holders);

    // Once verdicts stand, a port that print gives is as little free as one where a cable was seen.
    internal LabelMeanings WithDerived(IEnumerable<CableReading> judged)
    {
        var holders = new Dictionary<Address, string>(_holders);
        foreach (var reading in judged.Where(reading => reading.IsRebuildable))
        {
            foreach (var end in reading.Ends)
            {
                if (end.IsDerived && end.At.Port is not null) holders.TryAdd(end.At, reading.Cable.Id);
            }
        }

        return new LabelMeanings(_record, holders);
    }

    // The same place with its frame's present id: two spellings of one frame are one frame.
    internal Address Now(Address address) =>
        _record.FrameAt(address) is { } frame && !string.Equals(frame.Id, address.Frame, StringComparison.Ordinal)
            ? Address.Create(frame.Id, address.Position, address.Port)
            : address;

    // A place that print means, spelt as the record would: `S05/J03` on a sleeve is `S5/J3` where the frame declares S5.
    internal Address Spelt(Address meant)
    {
        var place = _places.Find(meant);
        return AddressSpelling.Spell(meant, place.Frame, place.Position);
    }

    // The place that a text means, spelt as the record would; null where the text is no address, or no such place stands. Remembers what it
    // was asked.
    internal Address? Standing(ReadOnlySpan<char> text)
    {
        var asked = _asked.GetAlternateLookup<ReadOnlySpan<char>>();
        if (asked.TryGetValue(text, out var known)) return known;
        if (_asked.Count == MostAsked) _asked.Clear();
        Address? place = Address.TryParse(text.ToString(), out var meant) && Lack(meant) is null ? Spelt(meant) : null;
        asked[text] = place;
        return place;
    }

    // Why a place does not exist; null where it does.
    internal string? Lack(Address address)
    {
        var place = _places.Find(address);
        return place.Lack switch
        {
            MissingAddressPart.Frame => $"there is no frame `{address.Frame}`",
            MissingAddressPart.Position => $"frame `{place.Frame!.Id}` has no position `{address.Position}`",
            MissingAddressPart.Port => $"position `{address.Position}` of frame `{place.Frame!.Id}` has no port `{address.Port}`",
            MissingAddressPart.Slot => $"position `{address.Position}` of frame `{place.Frame!.Id}` has no slot `{address.Slot}`",
            _ => place.Frame is { IsWithdrawn: true } frame ? $"frame `{frame.Id}` is withdrawn" : null,
        };
    }

    // The other cable that was seen in a port; null where the port is free, or where no port is named.
    internal string? HolderBeside(string cable, Address address) =>
        address.Port is not null && _holders.TryGetValue(address, out var holder) && !string.Equals(holder, cable, StringComparison.Ordinal)
            ? holder
            : null;

    // Whether two addresses may be one place, one given less exactly than the other.
    internal static bool Fit(Address a, Address b) =>
        LeadingZeros.Comparer.Equals(a.Frame, b.Frame) && Fit(a.Position, b.Position) && Fit(a.Port, b.Port);

    internal static int Depth(Address address) => address.Port is not null ? 3 : address.Position is not null ? 2 : 1;

    private static bool Fit(string? a, string? b) => a is null || b is null || LeadingZeros.Comparer.Equals(a, b);
}
