using System.Text;
using Archive.Publishing.Building;
using Archive.Publishing.Requests;
using Xunit;

namespace Archive.Publishing.Tests.Building;

public sealed class SiteSessionTests : IDisposable
{
    private readonly Station _station = new();

    private static CancellationToken Patience => TestContext.Current.CancellationToken;

    public void Dispose() => _station.Dispose();

    [Fact]
    public void Every_file_that_is_asked_for_is_what_a_publication_writes()
    {
        _station.Write("frames/moved.yaml", "- {id: R9-01, name: Moved, was: [R9-00]}\n- {id: R9-02, withdrawn: never there}\n");
        _station.Write("cables/many.yaml", string.Concat(Enumerable.Range(5000, 505)
            .Select(i => $"- {{id: C-{i}, kind: coax-75, label: \"L{i}\", ends: [{{at: R9-01}}, {{at: R2-05}}]}}\n")));
        var session = new SiteSession(_station.Options());
        Assert.IsType<BuildStatus.Ready>(session.Update(Patience)!.Status);
        var published = _station.Publish("site", "other-cache");
        Assert.Contains("frames/R9-00/index.html", published.Keys);
        Assert.Contains("frames/R9-01/cables/2/index.html", published.Keys);
        Assert.Contains(published.Keys, path => path.StartsWith("data/iiif/", StringComparison.Ordinal));
        Assert.Contains(published.Keys, path => path.EndsWith("/info.json", StringComparison.Ordinal));

        // By path, without listing anything; then what is listed.
        foreach (var (path, bytes) in published)
        {
            Assert.True(session.Site!.Has(path), path);
            var made = session.Site.Read(path)!.Value;
            Assert.Empty(made.Diagnostics);
            Assert.True(made.Bytes.Span.SequenceEqual(bytes), path);
        }

        Assert.Equal(published.Keys, session.Site!.Paths.Order(StringComparer.Ordinal));
        Assert.Null(session.Site.Read("frames/none/index.html"));
        Assert.Null(session.Site.Read("../content/archive.yaml"));
        Assert.False(session.Site.Has(""));
    }

    // Cut by number, or with a total on each sheet, every sheet of every list would change.
    [Fact]
    public void One_more_cable_at_the_front_seldom_changes_the_sheets_of_lists_behind()
    {
        _station.Write("frames/many.yaml", "- {id: R9-01, name: Many}\n");
        _station.Write("cables/many.yaml", string.Concat(Enumerable.Range(5100, 1400)
            .Select(i => $"- {{id: C-{i}, kind: coax-75, label: \"L{i}\", ends: [{{at: R9-01}}, {{at: R2-05}}]}}\n")));
        var session = new SiteSession(_station.Options());
        Assert.IsType<BuildStatus.Ready>(session.Update(Patience)!.Status);
        var before = Behind();
        Assert.InRange(before.Count, 12, 40);

        // Now and then a cut moves, and all sheets of that list link to it.
        var (lists, changed) = (0, 0);
        foreach (var id in new[] { "C-0004", "C-0003", "C-0002", "C-0001" })
        {
            _station.Write($"cables/{id}.yaml", $"- {{id: {id}, kind: coax-75, label: L{id}, ends: [{{at: R9-01}}, {{at: R2-05}}]}}\n");
            Assert.IsType<BuildStatus.Ready>(session.Update(Patience)!.Status);
            Assert.Contains(id, Text(session, "cables/index.html"), StringComparison.Ordinal);
            var after = Behind();
            lists += after.Keys.DistinctBy(ListOf).Count();
            changed += after.Except(before).DistinctBy(page => ListOf(page.Key)).Count();
            before = after;
        }

        Assert.InRange(changed, 0, lists / 4);

        static string ListOf(string path) => path[..path.LastIndexOf('/', path.Length - "/index.html".Length - 1)];

        SortedDictionary<string, string> Behind() => new(
            (from folder in new[] { "indexes/cables-by-id", "indexes/cables-by-label", "indexes/cables-by-kind", "frames/R9-01/cables" }
             from number in Enumerable.Range(2, 10)
             let path = $"{folder}/{number}/index.html"
             where session.Site!.Has(path)
             select path).ToDictionary(path => path, path => Text(session, path)),
            StringComparer.Ordinal);
    }

    [Fact]
    public void After_an_edit_only_the_file_that_changed_is_read()
    {
        var session = new SiteSession(_station.Options());
        session.Update(Patience);
        Assert.True(session.FilesRead > 8);
        Assert.Null(session.Update(Patience));

        File.AppendAllText(_station["frames/others.yaml"], "- {id: R8-01, name: Added}\n");
        Assert.IsType<BuildStatus.Ready>(session.Update(Patience)!.Status);
        Assert.Equal(1, session.FilesRead);
        Assert.Contains("Added", Text(session, "frames/R8-01/index.html"), StringComparison.Ordinal);
        Same(session, "edited");
    }

    [Fact]
    public void While_the_record_has_errors_the_site_stays_as_it_was()
    {
        var session = new SiteSession(_station.Options());
        session.Update(Patience);
        var before = session.Site;
        _station.Write("frames/bad.yaml", "- {id: R8-01, name: Bad, wieght: 3 kg}\n");
        var outcome = session.Update(Patience)!;
        Assert.IsType<BuildStatus.Withheld>(outcome.Status);
        Assert.Equal(1, outcome.Counts.Errors);
        Assert.Same(before, session.Site);
        Assert.NotNull(before!.Read("index.html"));

        File.Delete(_station["frames/bad.yaml"]);
        Assert.IsType<BuildStatus.Ready>(session.Update(Patience)!.Status);
        Assert.Equal(0, session.FilesRead);
        Same(session, "mended");
    }

    [Fact]
    public void A_photo_that_goes_comes_back_or_changes_is_seen_though_its_record_is_not_read_again()
    {
        var session = new SiteSession(_station.Options());
        session.Update(Patience);
        File.Move(_station["photos/row2/a.jpg"], _station[".away.jpg"]);
        Assert.IsType<BuildStatus.Withheld>(session.Update(Patience)!.Status);
        File.Move(_station[".away.jpg"], _station["photos/row2/a.jpg"]);
        session.Update(Patience);
        Same(session, "back");
        _station.WritePicture("photos/row2/a.jpg", 200);
        session.Update(Patience);
        Same(session, "other");
    }

    [Fact]
    public void An_error_of_a_template_comes_with_the_page_and_goes_with_the_next_edit()
    {
        _station.CopyTheme();
        var session = new SiteSession(_station.Options());
        session.Update(Patience);
        var template = Path.Combine(_station.Themes, "ledger/templates/frame.html");
        var text = File.ReadAllText(template);
        File.WriteAllText(template, text + "{{ page.no.such }}");
        session.Update(Patience);
        var (_, diagnostics) = session.Site!.Read("frames/R2-05/index.html")!.Value;
        Assert.Equal("AF1003", Assert.Single(diagnostics).Code);
        Assert.Empty(session.Site.Read("index.html")!.Value.Diagnostics);

        File.WriteAllText(template, text + "<p>more</p>");
        session.Update(Patience);
        Assert.Contains("<p>more</p>", Text(session, "frames/R2-05/index.html"), StringComparison.Ordinal);
    }

    [Fact]
    public void A_link_in_the_place_of_a_theme_s_file_is_not_followed()
    {
        _station.CopyTheme();
        var session = new SiteSession(_station.Options());
        session.Update(Patience);
        var style = Path.Combine(_station.Themes, "ledger/assets/ledger.css");
        Assert.NotNull(session.Site!.Read("assets/ledger.css"));
        File.Delete(style);
        File.CreateSymbolicLink(style, _station["archive.yaml"]);
        Assert.Throws<IOException>(() => session.Site.Read("assets/ledger.css"));
    }

    private static string Text(SiteSession session, string path) => Encoding.UTF8.GetString(session.Site!.Read(path)!.Value.Bytes.Span);

    // As a publication from nothing.
    private void Same(SiteSession session, string name) => Assert.Equal(
        Encoding.UTF8.GetString(_station.Publish(name, $"{name}-cache")["site.sha256"]), Text(session, "site.sha256"));
}
