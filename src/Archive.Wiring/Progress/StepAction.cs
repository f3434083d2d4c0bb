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

    /// <summary>Units that must be out of a frame before it is tipped or lifted come out of their slots.</summary>
    TakeOutUnits,

    /// <summary>A frame is looked at all round: nothing but its bolts may hold it.</summary>
    Release,

    /// <summary>A frame is levelled and anchored.</summary>
    Fix,

    /// <summary>An earth is laid and connected at once.</summary>
    LayAndConnect,

    /// <summary>A frame's path to the building's earth is tested.</summary>
    TestEarth,

    /// <summary>A cable is laid in its trays.</summary>
    Lay,

    /// <summary>One end of a cable is connected.</summary>
    Connect,

    /// <summary>A frame is checked before power is put on it.</summary>
    Check,

    /// <summary>Polarity and voltage are proved at a frame without its units; then it is isolated and discharged again.</summary>
    ProveSupply,

    /// <summary>Units are put back into the slots of a dead frame.</summary>
    FitUnits,

    /// <summary>Power is put on a frame in stages.</summary>
    Start,
}
