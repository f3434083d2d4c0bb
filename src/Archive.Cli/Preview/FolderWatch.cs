using System.Threading.Channels;

namespace Archive.Cli.Preview;

/// <summary>Tells when something below some folders changes: once for a burst of changes, when it is over.</summary>
internal sealed class FolderWatch : IDisposable
{
    // An editor writes a file in a few steps. A longer burst, such as a checkout, is looked at in between: that costs little.
    private static readonly TimeSpan Burst = TimeSpan.FromMilliseconds(40);
    private readonly List<FileSystemWatcher> _watchers = [];
    private readonly Channel<bool> _changes =
        Channel.CreateBounded<bool>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite });

    /// <summary>Begins to watch.</summary>
    /// <param name="folders">Full paths; those that do not exist are passed over.</param>
    internal FolderWatch(IEnumerable<string> folders)
    {
        foreach (var folder in folders.Where(Directory.Exists))
        {
            var watcher = new FileSystemWatcher(folder) { IncludeSubdirectories = true, InternalBufferSize = 1 << 16 };
            watcher.Changed += (_, change) => Note(change.Name);
            watcher.Created += (_, change) => Note(change.Name);
            watcher.Deleted += (_, change) => Note(change.Name);
            watcher.Renamed += (_, change) => Note(change.Name);
            watcher.Error += (_, _) => _changes.Writer.TryWrite(true); // something was missed: look at all of it
            watcher.EnableRaisingEvents = true;
            _watchers.Add(watcher);
        }
    }

    /// <summary>Waits for the next change and for the burst to end.</summary>
    internal async Task Next(CancellationToken cancellation)
    {
        await _changes.Reader.ReadAsync(cancellation).ConfigureAwait(false);
        do
        {
            await Task.Delay(Burst, cancellation).ConfigureAwait(false);
        }
        while (_changes.Reader.TryRead(out _));
    }

    public void Dispose() => _watchers.ForEach(watcher => watcher.Dispose());

    // Editors' swap files and repositories' own folders are hidden; the reader passes over them too.
    private void Note(string? path)
    {
        if (path is null || !path.Split('/', '\\').Any(part => part.StartsWith('.'))) _changes.Writer.TryWrite(true);
    }
}
