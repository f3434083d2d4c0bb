namespace Archive.Storage;

/// <summary>What disks and permissions do to a program, distinguished from its own mistakes.</summary>
public static class DiskErrors
{
    /// <summary>Whether an exception comes from a disk or a permission.</summary>
    public static bool Is(Exception exception) => exception switch
    {
        IOException or UnauthorizedAccessException => true,
        AggregateException many => many.Flatten().InnerExceptions.All(Is),
        _ => false,
    };

    /// <summary>What it says, in plain words without a full stop.</summary>
    public static string Describe(Exception exception)
    {
        var first = exception is AggregateException many ? many.Flatten().InnerExceptions[0] : exception;
        return first.Message.TrimEnd('.');
    }
}
