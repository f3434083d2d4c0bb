namespace Archive.Cli.Options;

/// <summary>The command line means nothing that can be done.</summary>
/// <param name="message">What is wrong with it.</param>
/// <param name="help">What to type instead.</param>
internal sealed class WrongCommandLineException(string message, string help) : Exception(message)
{
    /// <summary>What to type instead.</summary>
    internal string Help { get; } = help;
}
