using System.Collections.Immutable;
using System.Diagnostics;
using System.Threading.Channels;
using Archive.Diagnostics.Rendering;
using Archive.Publishing.Building;
using Archive.Publishing.Requests;
using Microsoft.AspNetCore.Http;

namespace Archive.Cli.Preview;

/// <summary>What the preview shows now, and the browsers that listen for changes.</summary>
/// <param name="report">Writes errors that were found when a page was made to the terminal.</param>
internal sealed class PreviewState(Action<ImmutableArray<RenderedDiagnostic>> report)
{
    private readonly List<ChannelWriter<string>> _listeners = [];
    private readonly HashSet<(SourceLocation, string)> _reported = [];
    private readonly Lock _lock = new();

    /// <summary>What is shown now.</summary>
    internal Shown Now { get; private set; } = new(null, Stopwatch.GetTimestamp());

    /// <summary>The result of the latest check; null before the first.</summary>
    internal BuildResult? Latest { get; private set; }

    /// <summary>
    /// Takes the result of a check and sends every browser an event: <c>site</c> if the site is new, <c>diagnostics</c> if the old one
    /// stays.
    /// </summary>
    /// <param name="site">The site to show from now on.</param>
    internal void Take(BuildResult outcome, SiteSnapshot? site)
    {
        lock (_lock)
        {
            var isNew = outcome.Status is BuildStatus.Ready;
            (Latest, Now) = (outcome, new Shown(site, isNew ? Now.Number + 1 : Now.Number));
            _reported.Clear();
            var change = isNew ? "site" : "diagnostics";
            foreach (var listener in _listeners) listener.TryWrite(change);
        }
    }

    /// <summary>Reports errors that were found when a page was made, each once while the site is the same.</summary>
    internal void Report(ImmutableArray<RenderedDiagnostic> diagnostics)
    {
        lock (_lock)
        {
            var news = diagnostics.Where(diagnostic => _reported.Add((diagnostic.Place, diagnostic.Message))).ToImmutableArray();
            if (!news.IsEmpty) report(news);
        }
    }

    /// <summary>Sends one browser every change, as server-sent events.</summary>
    /// <param name="response">To the browser.</param>
    /// <param name="number">Which site its page is of: where another is there by now, that is its first event. Null if it does not say.
    /// </param>
    /// <param name="cancellation">Ends it: the browser has gone away, or the preview stops.</param>
    internal async Task Listen(HttpResponse response, long? number, CancellationToken cancellation)
    {
        var changes = Channel.CreateBounded<string>(new BoundedChannelOptions(8) { FullMode = BoundedChannelFullMode.DropOldest });
        response.ContentType = "text/event-stream";
        lock (_lock)
        {
            _listeners.Add(changes.Writer);
            if (number is not null && number != Now.Number) changes.Writer.TryWrite("site");
        }

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

    /// <summary>A site, and which one it is.</summary>
    /// <param name="Site">The site of the latest state of the record without errors; null before the first. Nothing else is served.</param>
    /// <param name="Number">Larger than that of every site before it, those of earlier runs too.</param>
    internal sealed record Shown(SiteSnapshot? Site, long Number);
}
