using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Wiring.Safety;

namespace Archive.Plans.Safety;

/// <summary>The cautions, in our own words. They defer to local code and to licensed people, and teach no one the work.</summary>
public static class StandardCautions
{
    /// <summary>At a frame whose top is above a person's shoulder, or heavy: it may fall over.</summary>
    public static Caution Tall { get; } = new(
        "Tall and heavy: it can tip",
        "A frame is held up by its bolts and its neighbours. Before you undo the last bolt, someone trained for the move must have secured it against tipping, the path must be clear, and nobody may stand where it could fall.");

    /// <summary>At a direct-current feeder or a battery.</summary>
    public static Caution DirectCurrent { get; } = new(
        "Direct current and batteries: enough to weld a spanner",
        "Low voltage does not mean safe: a battery gives thousands of amperes through a dropped tool. Before anyone touches a feeder, a licensed person isolates it, proves it dead and locks it off, under local code. Take off rings and watches.");

    /// <summary>At anything that draws power.</summary>
    public static Caution Powered { get; } = new(
        "Proved dead first",
        "Treat every conductor as live until a licensed person has isolated it, proved it dead and locked it off, under local code.");

    /// <summary>At an earth conductor.</summary>
    public static Caution Earth { get; } = new(
        OrderRules.EarthLast.Title,
        $"{Phrase.Sentence(OrderRules.EarthLast.Sentence)} It may carry current as long as anything else is connected. A licensed person says when it may be disconnected.");

    /// <summary>At feeders that are disconnected.</summary>
    public static Caution FeedersFirst { get; } = new(
        OrderRules.FeedersFirst.Title,
        $"{Phrase.Sentence(OrderRules.FeedersFirst.Sentence)} Do not touch a feeder until a licensed person has proved it dead at both ends.");

    /// <summary>At outside lines that are disconnected.</summary>
    public static Caution OutsideFirst { get; } = new(
        OrderRules.OutsideFirst.Title,
        $"{Phrase.Sentence(OrderRules.OutsideFirst.Sentence)} Their owner or a licensed person disconnects and earths them outside, and proves them dead.");

    /// <summary>At outside lines that are connected again.</summary>
    public static Caution OutsideLast { get; } = new(
        OrderRules.OutsideLast.Title,
        $"{Phrase.Sentence(OrderRules.OutsideLast.Sentence)} Their owner or a licensed person does that.");

    /// <summary>At an earth conductor that is connected again.</summary>
    public static Caution EarthFirst { get; } = new(
        OrderRules.EarthFirst.Title,
        $"{Phrase.Sentence(OrderRules.EarthFirst.Sentence)} A licensed person does that, and says when feeders may follow.");

    /// <summary>At feeders that are connected again.</summary>
    public static Caution FeedersLast { get; } = new(
        OrderRules.FeedersLast.Title,
        $"{Phrase.Sentence(OrderRules.FeedersLast.Sentence)} A licensed person connects them, dead and with their fuses drawn.");

    /// <summary>At a tray overhead.</summary>
    public static Caution Overhead { get; } = new(
        "Work at height",
        "Trays carry cables, not people. Use a ladder or platform that local rules allow, with someone at its foot, and keep people out from underneath.");

    /// <summary>At an optical fibre.</summary>
    public static Caution Fibre { get; } = new(
        "Fibre: light and splinters",
        "Never look into a fibre or a connector. Glass splinters get into skin and eyes: wear safety glasses and collect every offcut.");

    /// <summary>At old apparatus.</summary>
    public static Caution OldMaterials { get; } = new(
        "Old materials",
        "Equipment of this age may hold asbestos, PCB oil, lead or charged capacitors. Do not open anything unknown until a competent person has looked at it.");

    /// <summary>Where heavy things are lifted and carried.</summary>
    public static Caution Lifting { get; } = new(
        "Weights are as recorded",
        "A weight may be wrong, and a frame's centre of gravity is seldom in its middle. The person leading the lift decides how many people and which equipment to use, and which way to go, under local rules.");

    /// <summary>Where floors are loaded.</summary>
    public static Caution Floor { get; } = new(
        "An engineer judges the floor",
        "These figures compare recorded weights with a recorded rating. A structural engineer, under local code, says what a floor can carry and how to spread a load on the way to its place.");

    /// <summary>Where voltage, current and heat are calculated.</summary>
    public static Caution Licensed { get; } = new(
        "A licensed person decides",
        "Currents, voltage drops and heat are calculated from the record, for copper at 20 °C. A licensed electrician, under local code, decides on conductors, fuses and cooling, and proves each feeder dead before anyone touches it.");

    /// <summary>At what belongs to someone else.</summary>
    public static Caution NotOurs { get; } = new(
        "Not ours: do not touch",
        "It belongs to someone else, stays where it is, and may be live. Only its owner, or someone the owner has sent, disconnects, moves or cuts it.");

    /// <summary>At a cable of a family; null where there is nothing to watch out for.</summary>
    public static Caution? For(CableFamily? family) => family switch
    {
        CableFamily.Power => DirectCurrent,
        CableFamily.Earth => Earth,
        CableFamily.Fibre => Fibre,
        _ => null,
    };
}
