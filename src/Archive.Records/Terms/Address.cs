namespace Archive.Records.Terms;

/// <summary>
/// Names a place on a frame: <c>FRAME</c>, <c>FRAME/POSITION</c> or <c>FRAME/POSITION/PORT</c>, as written; or a port on the front of the
/// unit that was found in a slot, <c>FRAME/POSITION:SLOT/PORT</c>.
/// </summary>
/// <remarks>Equality ignores leading zeros in runs of digits and minds letter case. It says nothing of whether the place exists.</remarks>
public readonly struct Address : IEquatable<Address>
{
    private Address(string frame, string? position, string? port)
    {
        Frame = frame;
        Position = position;
        Port = port;
    }

    /// <summary>The frame's id as written.</summary>
    public string Frame { get; }

    /// <summary>The position as written, or null.</summary>
    public string? Position { get; }

    /// <summary>The port as written, or null; of a port on the front of a unit <c>SLOT:PORT</c>.</summary>
    public string? Port { get; }

    /// <summary>The slot of the unit that the port is on; null for one of the position itself.</summary>
    /// <remarks>An id has no colon, so a slot is never taken for a part of a port.</remarks>
    public string? Slot => Port?.IndexOf(':', StringComparison.Ordinal) is > 0 and var colon ? Port[..colon] : null;

    /// <summary>The position and what is below it, as written; null for a frame.</summary>
    public string? WithinFrame => Port is null ? Position
        : Slot is { } slot ? $"{Position}:{slot}/{Port[(slot.Length + 1)..]}"
        : $"{Position}/{Port}";

    /// <summary>Whether two addresses name the same place.</summary>
    public static bool operator ==(Address left, Address right) => left.Equals(right);

    /// <summary>Whether two addresses name different places.</summary>
    public static bool operator !=(Address left, Address right) => !left.Equals(right);

    /// <summary>Reads an address.</summary>
    /// <param name="text">One to three ids joined by <c>/</c>; of three, the second may have a slot behind a colon.</param>
    /// <returns>False where the text is no address.</returns>
    public static bool TryParse(string text, out Address address)
    {
        address = default;
        var parts = text.Split('/');
        if (parts.Length == 3 && parts[1].Split(':') is [var position, var slot])
        {
            if (!((string[])[parts[0], position, slot, parts[2]]).All(RecordId.IsValid)) return false;
            address = new Address(parts[0], position, $"{slot}:{parts[2]}");
            return true;
        }

        if (parts.Length > 3 || !parts.All(RecordId.IsValid)) return false;
        address = new Address(parts[0], parts.Length > 1 ? parts[1] : null, parts.Length > 2 ? parts[2] : null);
        return true;
    }

    /// <summary>An address of known parts.</summary>
    /// <param name="frame">The frame's id.</param>
    /// <param name="position">The position, or null.</param>
    /// <param name="port">The port, or null; needs a position.</param>
    public static Address Create(string frame, string? position = null, string? port = null) =>
        new(frame, position, position is null ? null : port);

    public bool Equals(Address other) =>
        LeadingZeros.Comparer.Equals(Frame, other.Frame)
        && LeadingZeros.Comparer.Equals(Position, other.Position)
        && LeadingZeros.Comparer.Equals(Port, other.Port);

    public override bool Equals(object? obj) => obj is Address other && Equals(other);

    public override int GetHashCode()
    {
        var most = (Frame?.Length ?? 0) + (Position?.Length ?? 0) + (Port?.Length ?? 0) + 2;
        Span<char> buffer = most <= 256 ? stackalloc char[most] : new char[most];
        var length = Frame is null ? 0 : LeadingZeros.Strip(Frame, buffer);
        buffer[length++] = '/';
        if (Position is not null) length += LeadingZeros.Strip(Position, buffer[length..]);
        buffer[length++] = '/';
        if (Port is not null) length += LeadingZeros.Strip(Port, buffer[length..]);
        return string.GetHashCode(buffer[..length], StringComparison.Ordinal);
    }

    /// <summary>The address as written.</summary>
    public override string ToString() => WithinFrame is { } within ? $"{Frame}/{within}" : Frame;
}
