namespace Archive.Records.Model;

/// <summary>What becomes of a cable.</summary>
public enum Fate
{
    /// <summary>One end is disconnected; it is coiled and lashed to a frame.</summary>
    Coil,

    /// <summary>Both ends are disconnected and it is taken out.</summary>
    Remove,

    /// <summary>It is cut, for a stated reason.</summary>
    Sever,

    /// <summary>It stays where it is, for a stated reason.</summary>
    Leave,
}
