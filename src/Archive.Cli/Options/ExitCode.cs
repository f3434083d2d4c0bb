namespace Archive.Cli.Options;

/// <summary>How a command ends.</summary>
internal enum ExitCode
{
    Success = 0,

    RecordHasErrors = 1,

    CommandLineWrong = 2,

    /// <summary>Something outside failed: a disk, a permission, a folder that is not ours.</summary>
    OutsideFailed = 3,

    /// <summary>Interrupted by Ctrl-C, as shells number it.</summary>
    Interrupted = 130,

    /// <summary>Ended by SIGTERM, as shells number it.</summary>
    Terminated = 143,
}
