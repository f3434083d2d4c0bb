namespace Archive.Wiring.Progress;

/// <summary>What is done in a step.</summary>
public enum StepAction
{
    /// <summary>A frame's batteries are made safe by licensed people.</summary>
    MakeSafe,

    /// <summary>A cable is disconnected at its ends, and stays where it lies.</summary>
    Disconnect,

    /// <summary>A cable that was disconnected before is pulled.</summary>
    Pull,

    /// <summary>A cable is disconnected and pulled at once.</summary>
    TakeOut,
}
