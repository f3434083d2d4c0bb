namespace Archive.Browser.Tests;

/// <summary>What hands do, again where nothing came of it.</summary>
internal static class Hands
{
    private const int Turns = 4;

    // How long the effect of one turn is waited for, in ms; that of the last, as long as anything else.
    private const float Turn = 30_000;

    /// <summary>Taps or presses until the effect is seen.</summary>
    /// <param name="act">What is done; once more, it must do no harm.</param>
    /// <param name="effect">Waits for the effect, so many ms, or for null as long as anything else.</param>
    /// <remarks>
    /// On a busy machine a tap may take so long that the browser holds it for a press, which opens nothing, and a key is lost that is
    /// pressed as the page comes up.
    /// </remarks>
    internal static async Task Until(Func<Task> act, Func<float?, Task> effect)
    {
        for (var turn = 1; ; turn++)
        {
            await act();
            try
            {
                await effect(turn < Turns ? Turn : null);
                return;
            }
            catch (TimeoutException) when (turn < Turns)
            {
                // It is done again.
            }
        }
    }
}
