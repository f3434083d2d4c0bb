namespace Archive.LabelRecognition.Readings;

/// <summary>How much less sure the recogniser is than it says; see <c>TemperatureFit</c>.</summary>
/// <param name="OneLook">Of a line looked at once.</param>
/// <param name="SeveralLooks">Of the mean of several looks, which is less sure than each.</param>
public readonly record struct ReadingTemperatures(double OneLook, double SeveralLooks)
{
    /// <summary>As fitted on generated labels; the README says how.</summary>
    public static ReadingTemperatures Fitted => new(1.13, 1.11);
}
