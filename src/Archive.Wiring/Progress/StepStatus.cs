namespace Archive.Wiring.Progress;

/// <summary>How far a step has come, by the events of the record.</summary>
public enum StepStatus
{
    /// <summary>An event says that it was done.</summary>
    Done,

    /// <summary>It waits for something that the record names.</summary>
    Waiting,

    /// <summary>The record knows no obstacle, which is all that this says.</summary>
    Open,
}
