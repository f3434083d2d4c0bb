namespace Archive.Records.Terms;

/// <summary>Units that pages show.</summary>
public enum DisplayUnits
{
    /// <summary>Metric.</summary>
    Metric,

    /// <summary>Inch and pound.</summary>
    InchPound,

    /// <summary>Metric, with inch and pound behind.</summary>
    Both,
}
