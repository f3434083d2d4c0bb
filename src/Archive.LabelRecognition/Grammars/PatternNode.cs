using System.Collections.Immutable;

namespace Archive.LabelRecognition.Grammars;

/// <summary>A regular expression as a tree. It has no anchors: the parser writes out what they leave open.</summary>
internal abstract record PatternNode
{
    /// <summary>One character of a set.</summary>
    /// <param name="Set">A bit for each character of the alphabet.</param>
    internal sealed record Glyph(UInt128 Set) : PatternNode;

    /// <summary>One after the other; without parts, the empty text.</summary>
    internal sealed record Sequence(ImmutableArray<PatternNode> Parts) : PatternNode;

    /// <summary>One of several.</summary>
    internal sealed record Choice(ImmutableArray<PatternNode> Parts) : PatternNode;

    /// <summary>Several times.</summary>
    /// <param name="Most">Null where there is no upper end.</param>
    internal sealed record Repeat(PatternNode Part, int Least, int? Most) : PatternNode;

    /// <summary>A named group.</summary>
    internal sealed record Group(string Name, PatternNode Part) : PatternNode;
}
