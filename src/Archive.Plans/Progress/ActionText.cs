using Archive.Wiring.Progress;

namespace Archive.Plans.Progress;

/// <summary>What is done in a step, in words.</summary>
public static class ActionText
{
    /// <summary>In a few words that the cable or frame follows: lower case.</summary>
    public static string Describe(StepAction action) => action switch
    {
        StepAction.MakeSafe => "make safe",
        StepAction.Disconnect => "disconnect",
        StepAction.Pull => "pull",
        StepAction.TakeOut => "disconnect and pull",
        StepAction.TakeOutUnits => "take the units out of",
        StepAction.Release => "set free",
        StepAction.Fix => "level and anchor",
        StepAction.LayAndConnect => "lay and connect",
        StepAction.TestEarth => "test the earth of",
        StepAction.Lay => "lay",
        StepAction.Connect => "connect",
        StepAction.ProveSupply => "without units, prove the supply of",
        StepAction.FitUnits => "put the units back into",
        StepAction.Start => "start in stages",
        _ => "before power, check",
    };

    /// <summary>What is done, where the thing that it is done to stands elsewhere.</summary>
    public static string DescribeAlone(StepAction action) => action switch
    {
        StepAction.TestEarth => "test its earth",
        StepAction.TakeOutUnits => "take its units out",
        StepAction.ProveSupply => "without units, prove its supply",
        StepAction.FitUnits => "put its units back",
        _ => Describe(action),
    };
}
