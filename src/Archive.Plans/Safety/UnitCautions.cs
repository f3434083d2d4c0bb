using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Wording;

namespace Archive.Plans.Safety;

/// <summary>The cautions of plug-in units. They defer to local code and to licensed people.</summary>
public static class UnitCautions
{
    /// <summary>At every unit that is taken out or put back.</summary>
    public static Caution Refitting { get; } = new(
        "Units go in dead, and after the supply is proved",
        "Put a unit back only while the feeders of its frame are dead and their fuses drawn. First, with no unit in the frame, a licensed person proves polarity and voltage at its terminals, under local code, then isolates the frame again, discharges it and proves it dead. Only then do units go in, each into the slot in which it was found. Power follows in stages, decided by that person.");

    /// <summary>At units that come out before their frame moves.</summary>
    public static Caution TakingOut { get; } = new(
        "Units come out dead",
        "Take a unit out only while a licensed person has isolated its frame, discharged it and proved it dead, under local code. Batteries and capacitors in a unit can be live when the frame is dead. Write its slot on it before it leaves the slot. No frame is tipped, lifted or unbolted before the units that must be out are out.");

    /// <summary>The cautions of a unit: how it is handled, what can hurt at it, and how it goes back.</summary>
    public static ImmutableArray<Caution> For(Unit unit) =>
        [.. For([unit]), .. HazardCautions.For(unit.Hazards), Refitting];

    /// <summary>How some units must be handled, each rule once.</summary>
    public static IEnumerable<Caution> For(IEnumerable<Unit> units) => For(units, _ => true);

    /// <summary>How units must be handled that go back: their frame stands, so nothing is said of moving it.</summary>
    public static IEnumerable<Caution> WhenRefitted(IEnumerable<Unit> units) =>
        [Refitting, .. For(units, handling => handling != Handling.OutBeforeMoving)];

    /// <summary>How what is out of its place must be handled: nothing is said of getting it out.</summary>
    public static IEnumerable<Caution> WhenOut(IEnumerable<Stated<Handling>> handling) =>
        For(handling, each => each != Handling.OutBeforeMoving);

    private static IEnumerable<Caution> For(IEnumerable<Unit> units, Func<Handling, bool> matters) =>
        For(units.SelectMany(unit => unit.Handling), matters);

    private static IEnumerable<Caution> For(IEnumerable<Stated<Handling>> handling, Func<Handling, bool> matters) => handling
        .Select(each => each.Value)
        .Where(matters)
        .Distinct()
        .Order()
        .Select(HandlingText.For)
        .Select(text => new Caution(text.Title, text.Text));
}
