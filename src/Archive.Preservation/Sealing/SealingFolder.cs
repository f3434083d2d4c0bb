using Archive.Storage;

namespace Archive.Preservation.Sealing;

/// <summary>
/// The private folder beside a bag in which it grows, with <c>lock</c>, <c>journal</c>, <c>site</c> (the site, until it
/// is complete), <c>bag</c> and <c>withheld</c> (the bags, until they are renamed), <c>naming</c> (from when they are renamed on). What a
/// killed run left in it the next one goes on from.
/// </summary>
internal sealed class SealingFolder : IDisposable
{
    private const string NamingFile = "naming";
    private readonly string _folder;
    private readonly FolderLock _lock;

    private SealingFolder(string folder, FolderLock held)
    {
        _folder = folder;
        _lock = held;
    }

    internal string Journal => Path.Combine(_folder, "journal");

    internal string Site => Path.Combine(_folder, "site");

    internal string Bag => Path.Combine(_folder, "bag");

    internal string Apart => Path.Combine(_folder, "withheld");

    private string Naming => Path.Combine(_folder, NamingFile);

    internal string Unfinished(string target) => Path.Combine(_folder, Path.GetFileName(target) + ".part");

    /// <summary>Where the folder of a bag is.</summary>
    /// <param name="to">Full path of the bag, without <c>.zip</c>.</param>
    internal static string PathFor(string to) => PrivateFolder.Beside(to, "sealing");

    /// <summary>Takes the folder; null while another process has it.</summary>
    /// <param name="to">Full path of the bag that is to be.</param>
    internal static SealingFolder? Take(string to)
    {
        var folder = PathFor(to);
        if (FolderLock.Take(folder) is not { } held) return null;
        var work = new SealingFolder(folder, held);
        work.TakeBack();
        var siteInBag = Path.Combine(work.Bag, "data", "site");
        if (Directory.Exists(siteInBag) && !Directory.Exists(work.Site)) Directory.Move(siteInBag, work.Site);
        return work;
    }

    /// <summary>Deletes what a run left that was killed when its bags had their names already.</summary>
    /// <param name="to">Full path of the bag, without <c>.zip</c>.</param>
    internal static void ClearFinished(string to)
    {
        if (NamesIn(PathFor(to)) is not [.., var last, _] || Path.Exists(last)) return;
        using var work = Take(to);
        work?.Clear();
    }

    /// <summary>Gives bags their names: each in one step, and all of it lasts before any and after all.</summary>
    /// <param name="bags">What is renamed, and to what; the one that says that all is done comes last.</param>
    internal void Name(IReadOnlyList<(string From, string To)> bags)
    {
        Settle();
        File.WriteAllText(Naming, string.Join('\0', bags.SelectMany(bag => new[] { bag.From, bag.To })));
        Settle();
        foreach (var (from, to) in bags) Move(from, to);
        Settle();
    }

    /// <summary>Waits until everything is written to disk.</summary>
    internal void Settle() => DiskSync.FlushDisk(_lock.Handle);

    /// <summary>Deletes it all. What cannot be deleted now is in nobody's way.</summary>
    internal void Clear()
    {
        try
        {
            if (OperatingSystem.IsWindows()) _lock.Dispose();
            PrivateFolder.Delete(_folder);
        }
        catch (Exception exception) when (DiskErrors.Is(exception))
        {
            // The bag is in place either way.
        }
    }

    /// <summary>Lets the lock go; the folder goes with it where nothing is in it to go on from.</summary>
    public void Dispose() => _lock.Dispose();

    // A run that was killed while it gave names: until the last one has its name, none counts.
    private void TakeBack()
    {
        var names = NamesIn(_folder);
        for (var i = 0; names.Length > 0 && Path.Exists(names[^2]) && i < names.Length - 2; i += 2)
        {
            if (!Path.Exists(names[i]) && Path.Exists(names[i + 1])) Move(names[i + 1], names[i]);
        }

        File.Delete(Naming);
    }

    // What is renamed and to what, by turns; empty where it did not come to that.
    private static string[] NamesIn(string folder)
    {
        var path = Path.Combine(folder, NamingFile);
        return File.Exists(path) && File.ReadAllText(path).Split('\0') is { Length: > 1 } names && names.Length % 2 == 0 ? names : [];
    }

    private static void Move(string from, string to)
    {
        if (Directory.Exists(from)) Directory.Move(from, to);
        else File.Move(from, to);
    }
}
