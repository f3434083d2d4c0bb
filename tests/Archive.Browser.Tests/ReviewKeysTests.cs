using Archive.Cli.Preview;
using Archive.Proposals;
using Archive.Records.Facts;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Storage;
using Microsoft.Playwright;
using Xunit;

namespace Archive.Browser.Tests;

/// <summary>The page in which proposals are decided, by keys alone and without scripts: facts of any source, and labels as read.</summary>
public sealed class ReviewKeysTests : IDisposable
{
    private const string Read = "0205-07J14 0309-02J02";
    private const string Other = "0205-07J14 0309-02J08";

    private readonly Chromium _chromium;
    private readonly TemporaryFolder _folder = new();
    private readonly SiteServer _server;

    public ReviewKeysTests(Chromium chromium)
    {
        _chromium = chromium;
        _folder.Write("archive.yaml", "title: Small station\n");
        _folder.Write("cables/a.yaml", string.Concat(Enumerable.Range(1, 6).Select(number => $"- id: C-{number}\n  kind: pair-12\n")));
        ProposedFact[] facts =
        [
            Fact(1, "note", "dusty"), Fact(2, "length", "9 m"), Fact(3, "note", "later"), Print(4), Print(5), Fact(6, "length", "7 m"),
        ];
        var (current, _) = CurrentRecords.Read(new ArchiveFolder(_folder.Root));
        var picture = File.ReadAllBytes(Path.Combine(DemoSite.Repository, "content/photos/row-2/IMG_2249.jpg"));
        var session = new ReviewSession(
            _folder.Root,
            ProposalFinder.Find(current, facts),
            changes => FileChanges.Write(_folder.Root, changes.Files),
            origin => _folder[origin.File],
            origin => origin.Angle is null ? null : picture);
        _server = SiteServer.Start(new PreviewState(_ => { }), 0, session);
    }

    private string Page => new Uri(_server.Address, ReviewPage.Path).AbsoluteUri;

    private string Cables => File.ReadAllText(_folder["cables/a.yaml"]);

    [Fact]
    public async Task Everything_is_decided_by_keys_and_letters_that_are_typed_decide_nothing()
    {
        await using var context = await _chromium.NewContext();
        var page = await context.NewPageAsync();
        await page.GotoAsync(Page);
        await Painting.HasHappened(page);
        await Assertions.Expect(page.Locator("fieldset").First).ToBeFocusedAsync();
        Assert.Equal(2, await page.Locator("img.print").CountAsync());
        Assert.True(await page.Locator("img.print").First.EvaluateAsync<bool>(
            "async image => { image.loading = 'eager'; await image.decode(); return image.naturalWidth > 0; }"));
        Assert.Equal("8", await page.Locator("mark").First.InnerTextAsync());
        Assert.Empty(await Axe.Violations(page));

        // The first is at hand: accept, reject, later; the next is corrected in its last letter, then the runner-up is taken.
        foreach (var key in (string[])["a", "r", "l", "c", "End", "Backspace", "9", "Enter", "2"]) await page.Keyboard.PressAsync(key);

        // What is typed is no key, and Escape takes it back.
        foreach (var key in (string[])["c", "a", "r", "w", "Escape"]) await page.Keyboard.PressAsync(key);
        Assert.Equal(
            ["accept", "reject", "later", "correct", "runner-up", "later"],
            await page.EvaluateAsync<string[]>("[...document.querySelectorAll('input:checked')].map(choice => choice.value)"));

        // Back and on again: the last decision counts.
        foreach (var key in (string[])["k", "k", "k", "k", "k", "r", "k", "a", "j"]) await page.Keyboard.PressAsync(key);
        await page.Keyboard.PressAsync("w");
        await Assertions.Expect(page.Locator(".message").First).ToContainTextAsync("Written: 3 facts in cables/a.yaml.");
        await Assertions.Expect(page.Locator("fieldset")).ToHaveCountAsync(2);
        Assert.Equal("""
            - id: C-1
              kind: pair-12
              note: dusty
            - id: C-2
              kind: pair-12
            - id: C-3
              kind: pair-12
            - id: C-4
              kind: pair-12
              label: {is: 0205-07J14 0309-02J09, from: photo, note: corrected by hand; photo.jpg was read as 0205-07J14 0309-02J02}
            - id: C-5
              kind: pair-12
              label: {is: 0205-07J14 0309-02J08, from: photo, note: corrected by hand; photo.jpg was read as 0205-07J14 0309-02J02}
            - id: C-6
              kind: pair-12

            """, Cables);
        Assert.Contains("record: C-2, key: length", File.ReadAllText(_folder["rejected.yaml"]), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Without_scripts_it_is_a_form()
    {
        await using var context = await _chromium.NewContext(new() { JavaScriptEnabled = false });
        var page = await context.NewPageAsync();
        await page.GotoAsync(Page);
        await page.Locator("fieldset").Nth(1).GetByLabel("correct", new() { Exact = true }).CheckAsync();
        await page.Locator("fieldset").Nth(1).GetByLabel("correct to").FillAsync("9.5 m");
        await page.Locator("fieldset").Nth(4).GetByLabel("runner-up").CheckAsync();
        await page.GetByText("Write what is accepted").ClickAsync();
        await Assertions.Expect(page.Locator(".message").First).ToContainTextAsync("Written: 2 facts");
        Assert.Contains("length: {is: 9.5 m, note: corrected by hand; photo.jpg was read as 9 m}", Cables, StringComparison.Ordinal);
        Assert.Contains($"label: {{is: {Other}, from: photo", Cables, StringComparison.Ordinal);
    }

    public void Dispose()
    {
        _server.Dispose();
        _folder.Dispose();
    }

    private static ProposedFact Fact(int cable, string key, string value) => new()
    {
        RecordKind = RecordKind.Cable,
        RecordId = $"C-{cable}",
        Key = key,
        Value = FactValue.Of(value),
        Origin = new ProposalOrigin("photo.jpg"),
    };

    private static ProposedFact Print(int cable) => Fact(cable, "label", Read) with
    {
        Evidence = new FactEvidence(EvidenceSource.Photo),
        RunnerUp = Other,
        Hint = "97.0 % likely",
        Origin = new ProposalOrigin("photo.jpg") { Box = new OriginBox(0.1, 0.2, 0.3, 0.04), Angle = 0, Text = Read },
    };
}
