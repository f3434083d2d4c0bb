namespace Archive.DemoPictures;

/// <summary>All that the renderer gets for one picture.</summary>
/// <param name="Model">What is there.</param>
/// <param name="Lamps">What lights it.</param>
/// <param name="Air">Light from all sides, W/m²: what came through doors and off things that are left away.</param>
internal sealed record Scene(Model Model, IReadOnlyList<Lamp> Lamps, double Air)
{
    public Camera Camera => Model.Camera;

    /// <summary>Pixels that light is traced for; what is cheap, colours and edges, is seen at full size.</summary>
    public double LightPixels { get; init; } = 0.3e6;

    /// <summary>Where the lens is set to, in millimetres, and how wide the iris is; null where all is sharp.</summary>
    public Focus? Focus { get; init; }
}

/// <param name="Distance">Millimetres to the plane that is sharp.</param>
/// <param name="Depth">Share of the distance that stays sharp to either side.</param>
/// <param name="Softest">Pixels of blur, at most.</param>
internal sealed record Focus(double Distance, double Depth, double Softest);
