using System.Collections.Frozen;
using System.Collections.Immutable;

namespace Archive.Drawings.Halls;

/// <summary>Something that a plan shows of every frame, such as its weight: by a pattern and by letters, never by colour alone.</summary>
/// <param name="Title">What it shows, in a few words, lower case.</param>
/// <param name="Classes">What frames may be in this respect.</param>
/// <param name="Marks">What each frame is, by its id; a frame that is not named is left blank.</param>
public sealed record PlanLayer(string Title, ImmutableArray<PlanClass> Classes, FrozenDictionary<string, PlanMark> Marks)
{
    /// <summary>The class of a frame; null where the layer says nothing of it.</summary>
    internal PlanClass? ClassOf(string frame) => Marks.TryGetValue(frame, out var mark) ? Classes[mark.Class] : null;
}

/// <summary>What frames may be.</summary>
/// <param name="Says">In words, lower case.</param>
public sealed record PlanClass(string Says, PlanPattern Pattern);

/// <summary>What a frame is.</summary>
/// <param name="Class">Index of its class.</param>
/// <param name="Text">A letter or a number that is written on it.</param>
public readonly record struct PlanMark(int Class, string Text);

/// <summary>A pattern that a box is filled with; each differs from the others without colour.</summary>
public enum PlanPattern
{
    /// <summary>Left white.</summary>
    Blank,

    /// <summary>Lines that rise to the right.</summary>
    Rising,

    /// <summary>Lines that fall to the right.</summary>
    Falling,

    /// <summary>Both.</summary>
    Crossed,

    /// <summary>Lines along the sheet.</summary>
    Level,

    /// <summary>Lines up the sheet.</summary>
    Upright,

    /// <summary>A grey.</summary>
    Grey,

    /// <summary>A grey with lines that rise to the right, close together.</summary>
    Close,
}
