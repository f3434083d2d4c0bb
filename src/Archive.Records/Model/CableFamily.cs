namespace Archive.Records.Model;

public enum CableFamily
{
    /// <summary>Coaxial.</summary>
    Coax,

    /// <summary>Twisted pairs.</summary>
    Pairs,

    /// <summary>Optical fibre.</summary>
    Fibre,

    /// <summary>Serial data.</summary>
    Serial,

    Ribbon,

    /// <summary>Power feeder.</summary>
    Power,

    /// <summary>Earth conductor.</summary>
    Earth,

    /// <summary>Something else.</summary>
    Other,
}
