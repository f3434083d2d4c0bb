using System.Collections.Immutable;
using Archive.Records.Terms;
using UnitsNet;

namespace Archive.Records.Model;

/// <summary>A shelf, panel or block of a frame.</summary>
public sealed record Position
{
    /// <summary>Its name on the frame, such as <c>S7</c>.</summary>
    public required Stated<string> Id { get; init; }

    public Stated<string>? Holds { get; init; }

    /// <summary>Height of its lower edge above the floor.</summary>
    public Stated<Length>? FromFloor { get; init; }

    public Stated<Length>? Height { get; init; }

    /// <summary>Its ports; empty where none is declared and any is taken.</summary>
    public ImmutableArray<PortRange> Ports { get; init; } = [];

    /// <summary>The slots that units plug into; empty where none is declared and any is taken.</summary>
    public ImmutableArray<PortRange> Slots { get; init; } = [];

    /// <summary>Remark, in Markdown.</summary>
    public Stated<string>? Note { get; init; }
}
