using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Threading.Channels;
using Archive.Publishing.Publication;
using Archive.Publishing.Requests;
using Microsoft.AspNetCore.Http;

namespace Archive.Cli.Preview;

/// <summary>What the preview shows now, and the browsers that listen for changes.</summary>
/// <param name="site">Full path of the site's folder.</param>
internal sealed class PreviewState(string site)
{
    private readonly List<ChannelWriter<string>> _listeners = [];
    private readonly Lock _lock = new();

    /// <summary>Full path of the site's folder.</summary>
    internal string Site { get; } = site;

    /// <summary>Paths of the files that this run built or found to be as it would build them. No other file is served.</summary>
    internal FrozenSet<string> Files { get; private set; } = [];

    /// <summary>The result of the latest build; null before the first.</summary>
    internal BuildResult? Latest { get; private set; }

    /// <summary>
    /// Takes the result of a build and sends every browser an event: <c>site</c> if the site is new, <c>diagnostics</c> if the old one
    /// stays.
    /// </summary>
    internal void Take(BuildResult outcome)
    {
        lock (_lock)
        {
            Latest = outcome;
            Files = outcome.Status switch
            {
                BuildStatus.Published done => Paths(done.Files),
                BuildStatus.Unchanged same => Paths(same.Files),
                _ => Files,
            };
            foreach (var listener in _listeners) listener.TryWrite(outcome.Status is BuildStatus.Published ? "site" : "diagnostics");
        }
    }

    private static FrozenSet<string> Paths(ImmutableArray<PublishedFile> files) =>
        files.Select(file => file.Path).ToFrozenSet(StringComparer.Ordinal);

    /// <summary>Sends one browser every change, as server-sent events.</summary>
    /// <param name="response">To the browser.</param>
    /// <param name="cancellation">Ends it: the browser has gone away, or the preview stops.</param>
    internal async Task Listen(HttpResponse response, CancellationToken cancellation)
    {
        var changes = Channel.CreateBounded<string>(new BoundedChannelOptions(8) { FullMode = BoundedChannelFullMode.DropOldest });
        response.ContentType = "text/event-stream";
        lock (_lock) _listeners.Add(changes.Writer);
        try
        {
            await Tell(": preview\n\n").ConfigureAwait(false);
            await foreach (var name in changes.Reader.ReadAllAsync(cancellation).ConfigureAwait(false))
                await Tell($"event: {name}\ndata: \n\n").ConfigureAwait(false);
        }
        finally
        {
            lock (_lock) _listeners.Remove(changes.Writer);
        }

        async Task Tell(string text)
        {
            await response.WriteAsync(text, cancellation).ConfigureAwait(false);
            await response.Body.FlushAsync(cancellation).ConfigureAwait(false);
        }
    }
}
