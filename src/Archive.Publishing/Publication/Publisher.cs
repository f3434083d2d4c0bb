using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Text;
using Archive.Diagnostics;
using Archive.Storage;
using Archive.Storage.Output;

namespace Archive.Publishing.Publication;

/// <summary>
/// Puts a site in place. The new tree is built whole beside the old one, then takes its place in one step: anyone who looks sees the old
/// site or the new one, and a publication that fails or is killed leaves the old one as it was.
/// </summary>
/// <param name="site">The site's folder.</param>
/// <param name="shownAs">The folder as its owner names it, for messages.</param>
public sealed class Publisher(string site, string shownAs)
{
    private readonly string _site = Resolve(site);

    /// <summary>What devices keep of the site; null where nothing is listed.</summary>
    internal OfflineList? Offline { get; init; }

    /// <summary>Where the old tree's folders are kept for the next publication; null where they are deleted.</summary>
    internal string? Spare { get; init; }

    /// <summary>Whether a site is replaced although files of it were changed by hand.</summary>
    public bool Replace { get; init; }

    /// <summary>Whether exactly the recorded files stand in the site's folder, untouched, and nobody is running there.</summary>
    /// <param name="recorded">The files of the last publication.</param>
    public bool IsUnchanged(ImmutableArray<PublishedFile> recorded)
    {
        try
        {
            return !recorded.IsEmpty
                && !WorkFolder.IsLeftBeside(_site)
                && ExistingSite.Survey(_site, shownAs, recorded, replace: true, out _)?.IsExactly(recorded) == true;
        }
        catch (Exception exception) when (DiskErrors.Is(exception))
        {
            return false;
        }
    }

    /// <summary>Makes all files and puts them in place.</summary>
    /// <param name="files">The files; taken one by one as their turn comes.</param>
    /// <param name="recorded">The files of the last publication, as recorded; empty where that is not known.</param>
    /// <param name="made">Receives how many files are made.</param>
    /// <param name="cancellation">Gives up; the site is as it was.</param>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    public PublicationResult Publish(
        IEnumerable<OutputFile> files,
        ImmutableArray<PublishedFile> recorded,
        IProgress<int>? made = null,
        CancellationToken cancellation = default)
    {
        try
        {
            Directory.CreateDirectory(Path.GetDirectoryName(_site) ?? _site);
            using var work = WorkFolder.Take(_site);
            if (work is null) return new PublicationResult.Refused(SiteDiagnostics.Busy(shownAs));
            try
            {
                if (ExistingSite.Survey(_site, shownAs, recorded, Replace, out var refusal) is not { } old)
                    return new PublicationResult.Refused(refusal!);
                return Publish(files, work, old, made, cancellation);
            }
            finally
            {
                work.Clear();
            }
        }
        catch (Exception exception) when (DiskErrors.Is(exception))
        {
            return new PublicationResult.Refused(SiteDiagnostics.CannotWrite(shownAs, exception));
        }
    }

    private PublicationResult Publish(
        IEnumerable<OutputFile> files, WorkFolder work, ExistingSite old, IProgress<int>? made, CancellationToken cancellation)
    {
        var spare = new SpareTree(Spare, work.Next);
        spare.Take();
        var tree = new SiteTree(work.Next, old, spare);
        var diagnostics = MakeAll(files, tree, made, cancellation);
        if (!diagnostics.IsEmpty) return new PublicationResult.Faulty(diagnostics);

        if (Offline is not null)
        {
            foreach (var (path, bytes) in Offline.Of(tree.Files)) tree.Add(path, bytes);
        }

        var all = tree.Files;
        tree.Add(SiteManifest.FileName, Encoding.UTF8.GetBytes(SiteManifest.Write(all)));
        spare.Finish(all);
        cancellation.ThrowIfCancellationRequested();
        foreach (var _ in work.Exchange(spare, old.Paths))
        {
            // Each step is done as it is asked for.
        }

        var paths = all.Select(file => file.Path).ToHashSet(StringComparer.Ordinal);
        return new PublicationResult.Done(tree.Files, tree.Written, old.Paths.Count(path => !paths.Contains(path)));
    }

    // Many at once, each made when its turn comes, so that no more than a few are in memory. After the first error nothing more is written,
    // but all errors are reported.
    private static ImmutableArray<Diagnostic> MakeAll(
        IEnumerable<OutputFile> files, SiteTree tree, IProgress<int>? made, CancellationToken cancellation)
    {
        var diagnostics = new ConcurrentQueue<Diagnostic>();
        var options = new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount, CancellationToken = cancellation };
        var one = Partitioner.Create(SiteAddresses.Distinct(files, diagnostics), EnumerablePartitionerOptions.NoBuffering);
        try
        {
            Parallel.ForEach(one, options, file =>
            {
                Make(file, tree, diagnostics);
                made?.Report(tree.Count);
            });
        }
        catch (AggregateException failures) when (failures.Flatten().InnerExceptions is [var first, ..])
        {
            System.Runtime.ExceptionServices.ExceptionDispatchInfo.Throw(first);
        }

        return [.. diagnostics.Order(Diagnostic.Order)];
    }

    private static void Make(OutputFile file, SiteTree tree, ConcurrentQueue<Diagnostic> diagnostics)
    {
        switch (file)
        {
            case RenderedFile rendered:
                var rendering = rendered.Render();
                foreach (var diagnostic in rendering.Faults) diagnostics.Enqueue(diagnostic);
                if (diagnostics.IsEmpty) tree.Add(file.Path, rendering.Bytes.Span);
                rendering.GiveBack();
                break;
            case StreamedFile streamed when diagnostics.IsEmpty:
                tree.Add(streamed);
                break;
            case CopiedFile copied when diagnostics.IsEmpty:
                tree.Add(copied);
                break;
            case ExcerptFile excerpt when diagnostics.IsEmpty:
                tree.Add(excerpt);
                break;
        }
    }

    // A site reached through a link is replaced where it really stands; the link stays.
    private static string Resolve(string site)
    {
        var full = Path.TrimEndingDirectorySeparator(Path.GetFullPath(site));
        try
        {
            return Directory.ResolveLinkTarget(full, returnFinalTarget: true)?.FullName ?? full;
        }
        catch (IOException)
        {
            return full;
        }
    }
}
