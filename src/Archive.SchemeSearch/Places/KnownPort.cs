namespace Archive.SchemeSearch.Places;

/// <summary>
/// A port of the record, its address taken apart: <c>R2-05/S3/J1</c> is row R2, joint -, frame 5, position S 3, port J 1.
/// </summary>
/// <param name="Address">As the record has it.</param>
/// <param name="Row">What stands before the figures of the frame, without what joins them; may be empty.</param>
/// <param name="Joint">What joins row and figures.</param>
/// <param name="Frame">The frame's number.</param>
/// <param name="Position">The position as the record has it.</param>
/// <param name="Shelf">The number at its end; -1 where it has none.</param>
/// <param name="PortPrefix">What stands before the figures of the port.</param>
/// <param name="Port">The port's number.</param>
public sealed record KnownPort(
    string Address, string Row, string Joint, int Frame, string Position, int Shelf, string PortPrefix, int Port)
{
    private const int MostFigures = 4;

    /// <summary>Position and port without their numbers, such as <c>S#/J#</c>; the position whole where it has no number.</summary>
    internal string Family => Shelf < 0 ? $"{Position}/{PortPrefix}#" : $"{PositionPrefix}#/{PortPrefix}#";

    /// <summary>What stands before the number of a port of this position: <c>S3/J</c>.</summary>
    internal string Stem => $"{Position}/{PortPrefix}";

    internal string PositionPrefix => Shelf < 0 ? Position : Position.TrimEnd("0123456789".ToCharArray());

    /// <summary>Takes an address apart.</summary>
    /// <returns>Null where it does not name a port, or where frame or port end in no number of at most four figures.</returns>
    public static KnownPort? Parse(string address)
    {
        var parts = address.Split('/');
        if (parts.Length != 3) return null;
        var (head, frame) = NumberAtEnd(parts[0]);
        var (_, shelf) = NumberAtEnd(parts[1]);
        var (prefix, port) = NumberAtEnd(parts[2]);
        if (frame < 0 || port < 0 || parts[1].Length == 0) return null;
        var row = head;
        while (row.Length > 0 && !char.IsLetterOrDigit(row[^1])) row = row[..^1];
        return new KnownPort(address, row, head[row.Length..], frame, parts[1], shelf, prefix, port);
    }

    /// <summary>The number at the end of an id.</summary>
    /// <returns>What stands before it, and the number; -1 where there is none.</returns>
    internal static (string Prefix, int Number) NumberAtEnd(string id)
    {
        var start = id.Length;
        while (start > 0 && char.IsAsciiDigit(id[start - 1])) start--;
        return start == id.Length || id.Length - start > MostFigures
            ? (id, -1)
            : (id[..start], int.Parse(id.AsSpan(start), System.Globalization.CultureInfo.InvariantCulture));
    }
}
