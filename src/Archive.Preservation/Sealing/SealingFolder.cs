using Archive.Site;

namespace Archive.Preservation;

/// <summary>
/// The folder beside a bag in which it grows: <c>.NAME.sealing</c> beside <c>NAME</c>, with <c>lock</c>, <c>journal</c>, <c>site</c> (the site, until it
/// is complete), <c>bag</c> and <c>withheld</c> (the bags, until they are renamed). What a killed run left in it the next one goes on from.
/// </summary>
internal sealed class SealingFolder : IDisposable
{
    private readonly string _folder;
    private readonly FileStream _lock;

    private SealingFolder(string folder, FileStream held)
    {
        _folder = folder;
        _lock = held;
    }

    internal string Journal => Path.Combine(_folder, "journal");

    internal string Site => Path.Combine(_folder, "site");

    internal string Bag => Path.Combine(_folder, "bag");

    internal string Apart => Path.Combine(_folder, "withheld");

    internal string Unfinished(string target) => Path.Combine(_folder, Path.GetFileName(target) + ".part");

    /// <summary>Takes the folder; null while another process has it.</summary>
    /// <param name="to">Full path of the bag that is to be.</param>
    internal static SealingFolder? Take(string to)
    {
        var folder = Path.Combine(Path.GetDirectoryName(to)!, $".{Path.GetFileName(to)}.sealing");
        Directory.CreateDirectory(folder);
        FileStream held;
        try
        {
            // The lock is the operating system's: it ends with the process, however that ends.
            held = new FileStream(Path.Combine(folder, "lock"), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None, bufferSize: 1);
        }
        catch (IOException) when (File.Exists(Path.Combine(folder, "lock")))
        {
            return null;
        }

        var work = new SealingFolder(folder, held);
        var siteInBag = Path.Combine(work.Bag, "data", "site");
        if (Directory.Exists(siteInBag) && !Directory.Exists(work.Site)) Directory.Move(siteInBag, work.Site);
        return work;
    }

    /// <summary>Deletes it all. What cannot be deleted now is in nobody's way.</summary>
    internal void Clear()
    {
        try
        {
            if (OperatingSystem.IsWindows()) _lock.Dispose();
            Directory.Delete(_folder, recursive: true);
        }
        catch (Exception exception) when (DiskTrouble.Is(exception))
        {
            // The bag is in place either way.
        }
    }

    public void Dispose() => _lock.Dispose();
}
