namespace Archive.Publishing.Requests;

public enum BuildStep
{
    /// <summary>Reading and checking the record.</summary>
    Check,

    /// <summary>Looking at photos: are they there, are they the ones recorded.</summary>
    Inspect,

    /// <summary>Developing photos.</summary>
    Develop,

    /// <summary>Making pages and files.</summary>
    Make,

    /// <summary>Reading files back and taking their checksums; counted in MiB.</summary>
    Verify,

    /// <summary>Copying files into a bag and taking their checksums; counted in MiB.</summary>
    Seal,

    /// <summary>Reading labels in photos.</summary>
    ReadLabels,
}
