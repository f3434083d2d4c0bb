namespace Archive.Wiring.Labels;

/// <summary>Counts what one search costs (<see cref="LabelCosts"/>).</summary>
/// <param name="most">What it may cost.</param>
internal sealed class SearchWork(long most)
{
    /// <summary>What it has cost.</summary>
    internal long Done { get; private set; }

    /// <summary>Whether it has cost more than it may; it is to stop.</summary>
    internal bool IsOver => Done > most;

    /// <summary>Counts a step.</summary>
    /// <param name="units">What the step costs.</param>
    internal void Add(long units) => Done += units;
}
