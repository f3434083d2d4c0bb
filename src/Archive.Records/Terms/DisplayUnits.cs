namespace Archive.Records.Terms;

/// <summary>Units that pages show.</summary>
public enum DisplayUnits
{
    Metric,

    InchPound,

    /// <summary>Metric, with inch and pound behind.</summary>
    Both,
}
