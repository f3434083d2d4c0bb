namespace Archive.Storage;

/// <summary>Whether a file's size and time of last writing can stand for its content.</summary>
public static class FileTimes
{
    // Disks keep time in steps, FAT in the coarsest of two seconds: a file that is written twice within one step looks untouched.
    private static readonly TimeSpan Step = TimeSpan.FromSeconds(2);

    /// <summary>Whether any later writing will show in the file's time.</summary>
    /// <param name="written">Its last writing, UTC.</param>
    /// <param name="seen">When its size and time were looked at, before its content was read; UTC.</param>
    public static bool AreSettled(DateTime written, DateTime seen) => seen - written > Step;
}
