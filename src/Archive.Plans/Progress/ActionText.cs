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
        StepAction.Release => "set free",
        StepAction.Fix => "level and anchor",
        StepAction.LayAndConnect => "lay and connect",
        StepAction.TestEarth => "test the earth of",
        StepAction.Lay => "lay",
        StepAction.Connect => "connect",
        _ => "before power, check",
    };

    /// <summary>What is done, where the thing that it is done to stands elsewhere.</summary>
    public static string DescribeAlone(StepAction action) => action == StepAction.TestEarth ? "test its earth" : Describe(action);
}
