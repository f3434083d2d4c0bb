namespace Archive.Records.Model;

/// <summary>The kinds of record; each has its folder.</summary>
public enum RecordKind
{
    /// <summary>A rack, bay or cabinet: <c>frames/</c>.</summary>
    Frame,

    /// <summary>A cable: <c>cables/</c>.</summary>
    Cable,

    /// <summary>A kind of cable: <c>kinds/</c>.</summary>
    CableKind,

    /// <summary>A tray: <c>trays/</c>.</summary>
    Tray,

    /// <summary>A plug-in unit: <c>units/</c>.</summary>
    Unit,

    /// <summary>What is taken off and is not a unit: <c>pieces/</c>.</summary>
    Piece,

    /// <summary>A box, crate or pallet: <c>boxes/</c>.</summary>
    Box,

    /// <summary>A hall: <c>halls/</c>.</summary>
    Hall,

    /// <summary>A label scheme: <c>schemes/</c>.</summary>
    Scheme,

    /// <summary>A display: <c>displays/</c>.</summary>
    Display,

    /// <summary>A photo: <c>photos/</c>.</summary>
    Photo,

    /// <summary>A drawing, manual, disk image or recording: <c>documents/</c>.</summary>
    Document,

    /// <summary>An event: <c>events/</c>.</summary>
    Event,

    /// <summary>A story: <c>stories/</c>.</summary>
    Story,
}
