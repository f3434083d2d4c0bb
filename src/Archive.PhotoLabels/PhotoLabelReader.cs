using System.Collections.Immutable;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Archive.Diagnostics;
using Archive.Diagnostics.Rendering;
using Archive.LabelRecognition.Models;
using Archive.LabelRecognition.Pictures;
using Archive.LabelRecognition.Readings;
using Archive.PhotoLabels.Grammars;
using Archive.PhotoLabels.Joining;
using Archive.PhotoLabels.Proposing;
using Archive.PhotoLabels.Reading;
using Archive.Photos.Caching;
using Archive.Photos.Images;
using Archive.Proposals;
using Archive.Publishing.Building;
using Archive.Publishing.Caching;
using Archive.Publishing.Requests;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Wiring.Labels;

namespace Archive.PhotoLabels;

/// <summary>What reading came to.</summary>
/// <param name="Check">The check of the record: where it has errors, nothing is read.</param>
/// <param name="Labels">The labels, photo by photo from top to bottom.</param>
/// <param name="Photos">Number of photos that were read, or known from an earlier run.</param>
/// <param name="Decoded">Of these, how many had to be decoded.</param>
/// <param name="Other">Lines of print that are no label of a scheme.</param>
/// <param name="Skipped">Photos that could not be read, and lines beyond what is read.</param>
/// <param name="Unread">Schemes that no grammar can be made of: id, and why.</param>
public sealed record PhotoLabelResult(
    BuildResult Check,
    ImmutableArray<ReadLabel> Labels,
    int Photos,
    int Decoded,
    int Other,
    ImmutableArray<UnreadPhoto> Skipped,
    ImmutableArray<(string Scheme, string Why)> Unread)
{
    /// <summary>Why nothing could be read: models or library are missing or of no use; lower case, no full stop. Null where they are
    /// there.</summary>
    public string? Problem { get; init; }

    /// <summary>What the labels propose to the record.</summary>
    public ImmutableArray<Proposal> Proposals { get; init; } = [];

    /// <summary>The archive, as it was when the proposals were found.</summary>
    public IArchiveFolder? Folder { get; init; }

    /// <summary>Why <c>rejected.yaml</c> cannot be read; then nothing is proposed, since it may have been rejected.</summary>
    public ImmutableArray<RenderedDiagnostic> Unreadable { get; init; } = [];

    /// <summary>Ids of the photos that can be asked for.</summary>
    public ImmutableHashSet<string> Known { get; init; } = [];
}

/// <summary>Reads the labels in the photos of an archive.</summary>
public static class PhotoLabelReader
{
    // What is done with lines; another way, other entries in the cache.
    private const string Way = "lines 2";

    // A larger picture is halved first: its pixels are in memory twice. 64 megapixels are 192 MB.
    private const long MostPixels = 64_000_000;

    // Bytes.
    private const long MostGarbage = 96_000_000;

    // What is less likely is of no use to anyone: it is other print, or nobody can read it.
    private const double LeastProbability = 0.1;

    // Boxes are said in steps of this share of the picture's sides.
    private const double Finest = 0.0001;

    /// <summary>Reads them.</summary>
    /// <exception cref="OperationCanceledException">It was given up; what was read is kept.</exception>
    /// <exception cref="IOException">The archive's folder cannot be listed, or the cache cannot be written.</exception>
    public static PhotoLabelResult Read(
        BuildOptions options, ReadingRequest request, IProgress<BuildProgress>? progress, CancellationToken cancellation)
    {
        var (check, photos) = SiteBuild.OpenPhotos(options, progress, cancellation);
        var nothing = new PhotoLabelResult(check, [], 0, 0, 0, [], []);
        if (photos is null) return nothing;
        using var models = RecognitionModels.Load(request.Models, out var problem);
        if (models is null) return nothing with { Problem = problem };
        var grammars = SchemeGrammars.From(photos.Record);
        var finder = new LineFinder(
            models.Detector,
            new LabelReader(models.Recognizer, grammars.For(models.Recognizer.Classes), ReadingTemperatures.Fitted));
        var chosen = photos.Photos.Select(photo => (Photo: photo, Parts: PartsOf(photo.Photo, photos.Record, request)))
            .Where(one => one.Parts is not null)
            .ToList();
        var skipped = ImmutableArray.CreateBuilder<UnreadPhoto>();
        var lines = new List<LineInPhoto>();
        var (read, decoded) = (0, 0);
        var before = GC.GetTotalMemory(false);
        for (var at = 0; at < chosen.Count; at++)
        {
            cancellation.ThrowIfCancellationRequested();
            progress?.Report(new BuildProgress(BuildStep.ReadLabels, at, chosen.Count));
            var (photo, parts) = (chosen[at].Photo, chosen[at].Parts!.Value);
            if (photos.Inspect(photo) is not InspectedPhoto inspected)
            {
                skipped.Add(new UnreadPhoto(photo.Photo.Id, "cannot be used; asfound check says why"));
                continue;
            }

            var key = KeyOf(inspected.Sha256, photo, parts, grammars.Key);
            var found = Known(options.Cache, key);
            if (found is null)
            {
                decoded++;
                var pixels = photos.Decode(photo, MostPixels) as DecodedPhoto;
                if (pixels is null)
                {
                    skipped.Add(new UnreadPhoto(photo.Photo.Id, "cannot be decoded; asfound check --survey says why"));
                    continue;
                }

                found = finder.Read(new RgbImage(pixels.Width, pixels.Height, pixels.Pixels), parts);
                if (found is null)
                {
                    skipped.Add(new UnreadPhoto(photo.Photo.Id, "is too much for the recognition library"));
                    continue;
                }

                pixels = null;
                Collect(before);
                options.Cache.Replace(key, stream => JsonSerializer.Serialize(stream, found, PhotoLinesJson.Default.PhotoLines));
            }

            read++;
            if (found.Skipped > 0)
            {
                skipped.Add(new UnreadPhoto(
                    photo.Photo.Id, $"has more than {LineFinder.MostLines} lines of print; {found.Skipped} of them were not read"));
            }

            lines.AddRange(found.Lines.Select(line => new LineInPhoto(
                photo.Photo, line, BoxOf(line, found), CableAt(photos.Record, photo.Photo, found, line))));
        }

        progress?.Report(new BuildProgress(BuildStep.ReadLabels, chosen.Count, chosen.Count));
        var labels = OneOfEachCable(lines.Where(line => IsLabel(line.Line, grammars))).ToList();
        var all = Labels(labels, grammars, photos.Record);
        var folder = new ArchiveFolder(options.Content);
        var (rejections, wrong) = Rejections.Read(folder);
        var unreadable = wrong.Any(diagnostic => diagnostic.Severity == Severity.Error);
        return new PhotoLabelResult(
            check,
            all,
            read,
            decoded,
            lines.Count - labels.Count,
            skipped.ToImmutable(),
            grammars.Unread)
        {
            Known = [.. photos.Photos.Select(photo => photo.Photo.Id)],
            Folder = folder,
            Unreadable = unreadable ? RenderedDiagnostic.FromAll(wrong, options.PrefixFor) : [],
            Proposals = unreadable || all.IsEmpty
                ? []
                : ProposalFinder.Find(
                    CurrentRecords.Read(folder, cancellation).Records, ReadingProposals.From(photos.Record, all), rejections.Has),
        };
    }

    // The collector waits until several photos' pixels have piled up; the library that recognises has no part in that, and needs room too.
    private static void Collect(long before)
    {
        if (GC.GetTotalMemory(false) - before > MostGarbage) GC.Collect(GC.MaxGeneration, GCCollectionMode.Aggressive, true, true);
    }

    // Which parts of a photo are looked into: none for the whole picture; null where it is not read. A part that shows whole frames alone
    // has name plates, which would be taken for labels.
    private static ImmutableArray<ImageBox>? PartsOf(Photo photo, ArchiveModel record, ReadingRequest request)
    {
        if (request.Photos.Count > 0) return request.Photos.Contains(photo.Id) ? [] : null;
        if (photo.View is { Value: PhotoView.Label } || (request.IsDetailToo && photo.View is { Value: PhotoView.Detail })) return [];
        var near = photo.Regions.Where(region => !region.Shows.All(shown => record.Find(shown.Value) is Frame)).ToList();
        return near.Count == 0 ? null : [.. near.Select(region => region.Box.Value)];
    }

    private static string KeyOf(string sha256, OpenedPhoto photo, ImmutableArray<ImageBox> parts, string grammars)
    {
        var text = new StringBuilder($"{Way}\n{RecognitionModels.Version}\n{sha256}\n{grammars}\n");
        foreach (var part in photo.Hidden)
            text.Append(CultureInfo.InvariantCulture, $"hidden {part.Left:R} {part.Top:R} {part.Width:R} {part.Height:R}\n");
        foreach (var part in parts)
            text.Append(CultureInfo.InvariantCulture, $"part {part.Left:R} {part.Top:R} {part.Width:R} {part.Height:R}\n");
        var digits = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text.ToString())));
        return Path.Combine("labels", digits[..2], digits + ".json");
    }

    private static PhotoLines? Known(CacheFolder cache, string key)
    {
        try
        {
            using var stream = cache.Read(key);
            return stream is null ? null : JsonSerializer.Deserialize(stream, PhotoLinesJson.Default.PhotoLines);
        }
        catch (JsonException)
        {
            return null;
        }
    }

    private static bool IsLabel(PhotoLine line, SchemeGrammars grammars) =>
        !line.Readings.IsEmpty
        && line.Readings[0].Probability >= LeastProbability
        && LabelLikeness.IsLabel(line.Fit, line.Free, line.Readings[0].Label)
        && grammars.Schemes[line.Readings[0].Scheme].Read(line.Readings[0].Label, out _) is not null;

    // The smallest marked part around the middle of the line that shows a cable; else the one cable that the photo shows.
    private static string? CableAt(ArchiveModel record, Photo photo, PhotoLines lines, PhotoLine line)
    {
        var around = photo.Regions.Where(region => Contains(region.Box.Value, line)).OrderBy(region =>
            region.Box.Value.Width * region.Box.Value.Height);
        foreach (var region in around)
        {
            if (CablesIn(region.Shows.Select(shown => shown.Value)) is [var only]) return only.Id;
        }

        return CablesIn(photo.Shows.Select(shown => shown.Value)) is [var shown] && lines.Lines.Length == 1 ? shown.Id : null;

        List<Cable> CablesIn(IEnumerable<string> ids) =>
            [.. ids.Select(record.Find<Cable>).OfType<Cable>().Where(cable => !cable.IsWithdrawn)];
    }

    // A marked part may have the sleeves of neighbours in it: the one in its middle is meant.
    private static IEnumerable<LineInPhoto> OneOfEachCable(IEnumerable<LineInPhoto> lines)
    {
        foreach (var same in lines.GroupBy(line => (line.Photo.Id, line.Cable)))
        {
            var meant = same.Key.Cable is { } cable ? same.MinBy(line => OffMiddle(line.Photo, cable, line.Line)) : null;
            foreach (var line in same) yield return meant is null || ReferenceEquals(line, meant) ? line : line with { Cable = null };
        }
    }

    private static double OffMiddle(Photo photo, string cable, PhotoLine line) => photo.Regions
        .Where(region => Contains(region.Box.Value, line) && region.Shows.Any(shown => shown.Value == cable))
        .Select(region => region.Box.Value)
        .Select(box => Math.Abs(line.X - box.Left - (box.Width / 2)) + Math.Abs(line.Y - box.Top - (box.Height / 2)))
        .DefaultIfEmpty(0)
        .Min();

    private static bool Contains(ImageBox box, PhotoLine line) =>
        line.X >= box.Left && line.X <= box.Left + box.Width && line.Y >= box.Top && line.Y <= box.Top + box.Height;

    // The upright rectangle around a line at any angle; lengths along rows and columns differ by the shape of the picture.
    private static ImageBox BoxOf(PhotoLine line, PhotoLines picture)
    {
        var (sin, cos) = Math.SinCos(line.Angle);
        var (across, down) = (
            ((line.Length * Math.Abs(cos)) + (line.Height * Math.Abs(sin))) / 2,
            ((line.Length * Math.Abs(sin)) + (line.Height * Math.Abs(cos))) / 2 * picture.Width / picture.Height);
        var (left, top) = (Rounded(line.X - across), Rounded(line.Y - down));
        var (right, bottom) = (Rounded(line.X + across), Rounded(line.Y + down));
        return new ImageBox(left, top, Math.Max(Finest, right - left), Math.Max(Finest, bottom - top));

        static double Rounded(double at) => Math.Round(Math.Clamp(at, 0, 1 - Finest), 4);
    }

    private static ImmutableArray<ReadLabel> Labels(List<LineInPhoto> lines, SchemeGrammars grammars, ArchiveModel record)
    {
        var readings = LabelReadings.From(record);
        var byText = record.Cables.Where(cable => !cable.IsWithdrawn && cable.Label is not null)
            .ToLookup(cable => cable.Label!.Value.Value, cable => cable.Id, StringComparer.Ordinal);
        var labels = ImmutableArray.CreateBuilder<ReadLabel>();
        foreach (var (same, all) in LabelJoining.Join(lines, grammars))
        {
            if (all.IsEmpty) continue;
            var (scheme, label) = Apart(all[0].Label);
            var cable = CableOf(same[0].Cable, label);
            var next = all.Length > 1 ? Apart(all[1].Label) : default;
            labels.Add(new ReadLabel(
                [.. same.Select(line => new ReadPlace(
                    line.Photo.Id,
                    line.Photo.FilePath!,
                    line.Box,
                    (int)Math.Round(Math.IEEERemainder(line.Line.Angle, 2 * Math.PI) * 180 / Math.PI),
                    line.Line.Readings.Where(one => one.Scheme == scheme && one.Label == label).Sum(one => one.Probability)))],
                scheme,
                label,
                grammars.Schemes[scheme].Read(label, out _)!.Means,
                all[0].Probability,
                same.Max(line => line.Line.Readings[0].Probability),
                all.Length > 1 ? new LabelAlternative(next.Scheme, next.Label, all[1].Probability) : null,
                cable,
                cable is null ? null : readings.JudgePhotographed(cable, label)));
        }

        return labels.ToImmutable();

        // Where a cable without a label is marked, a label that is recorded of another is that one's, which is beside it.
        string? CableOf(string? marked, string label)
        {
            var recorded = byText[label].Take(2).ToList();
            return marked is null || (recorded.Count == 1 && record.Find<Cable>(marked) is { Label: null })
                ? recorded is [var only] ? only : marked
                : marked;
        }
    }

    private static (string Scheme, string Label) Apart(string name)
    {
        var end = name.IndexOf('\n', StringComparison.Ordinal);
        return (name[..end], name[(end + 1)..]);
    }
}
