using System.Net;
using Archive.Cli.Preview;
using Archive.Proposals;
using Archive.Records.Facts;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Storage;
using Xunit;

namespace Archive.Cli.Tests;

/// <summary>The page in which proposals are decided: nothing is written but by that page, and but what it accepts.</summary>
public sealed class ReviewPageTests : IDisposable
{
    private const string Cables = "- id: C-1\n  kind: pair-12\n  length: {is: 4 m, from: measured} # taped\n";

    private readonly TemporaryFolder _folder = new();
    private readonly HttpClient _client = new(new HttpClientHandler { AllowAutoRedirect = false });
    private readonly ReviewSession _session;
    private readonly SiteServer _server;

    public ReviewPageTests()
    {
        _folder.Write("archive.yaml", "title: Small station\n");
        _folder.Write("cables/a.yaml", Cables);
        _folder.Write("photo.png", "picture");
        var facts = new[]
        {
            Fact("length", "5 m"), Fact("note", "<b>dusty</b>"), Fact("kind", "pair-12") with { RecordId = "C-2" },
            Fact("length", "9 m") with { RecordId = "C-2" }, Fact("label", "X") with { RecordId = "C-2" },
        };
        var (current, _) = CurrentRecords.Read(new ArchiveFolder(_folder.Root));
        _session = new ReviewSession(
            _folder.Root,
            ProposalFinder.Find(current, facts),
            changes => FileChanges.Write(_folder.Root, changes.Files),
            origin => _folder[origin.File],
            origin => origin.Angle is null ? null : "print"u8.ToArray());
        _server = SiteServer.Start(new PreviewState(_ => { }), 0, _session);
    }

    private Uri Page => new(_server.Address, ReviewPage.Path);

    [Fact]
    public async Task The_page_shows_old_next_to_new_and_loads_nothing_of_others()
    {
        using var answer = await _client.GetAsync(Page, TestContext.Current.CancellationToken);
        var page = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        const string Both = "<dt>Now</dt><dd>4 m <small>from measured</small></dd><dt>Proposed</dt><dd><strong>5 m</strong>";
        Assert.Contains(Both, page, StringComparison.Ordinal);
        Assert.Contains("&lt;b&gt;dusty&lt;/b&gt;", page, StringComparison.Ordinal);
        Assert.Contains("<rect x=\"0.1\" y=\"0.2\" width=\"0.3\" height=\"0.4\"/>", page, StringComparison.Ordinal);
        Assert.Contains("photo.png: “5m”", page, StringComparison.Ordinal);
        var policy = answer.Headers.GetValues("Content-Security-Policy").Single();
        Assert.StartsWith("default-src 'none'; script-src 'self'; style-src 'self'", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("style=", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<script>", page, StringComparison.Ordinal);
        Assert.Equal("picture", await _client.GetStringAsync(new Uri(Page, "picture/0"), TestContext.Current.CancellationToken));
        foreach (var name in (string[])["../review.js", "../review.css"])
            Assert.NotEmpty(await _client.GetStringAsync(new Uri(Page, name), TestContext.Current.CancellationToken));
        Assert.Equal(HttpStatusCode.NotFound, (await Get("picture/9")).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await Get("picture/..%2fcables")).StatusCode);
    }

    [Fact]
    public async Task What_is_accepted_is_written_and_what_is_rejected_is_remembered()
    {
        using var answer = await Post(_session.Token, ("C-1:length", "accept"), ("C-1:note", "reject"));
        Assert.Equal(HttpStatusCode.SeeOther, answer.StatusCode);
        Assert.Equal(
            Cables.Replace("{is: 4 m, from: measured}", "{is: 5 m, note: \"before: 4 m, measured\"}", StringComparison.Ordinal),
            Read("cables/a.yaml"));
        Assert.Contains("- {record: C-1, key: note, value: ", Read("rejected.yaml"), StringComparison.Ordinal);
        var page = await _client.GetStringAsync(Page, TestContext.Current.CancellationToken);
        Assert.Contains("Written: 1 fact in cables/a.yaml.", page, StringComparison.Ordinal);
        Assert.Contains("3 proposals to decide", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_new_record_is_decided_as_a_whole_without_what_is_left_out()
    {
        using (await Post(_session.Token, ("C-2", "accept"))) Assert.Equal(
            "- id: C-2\n  kind: pair-12\n  label: X\n  length: 9 m\n", Read("cables/added.yaml"));
        File.Delete(_folder["cables/added.yaml"]);
        using (await Post(_session.Token, ("C-1:note", "later"))) Assert.Equal(Cables, Read("cables/a.yaml"));
        using (await Send(Form(_session.Token, ("C-2", "accept")), ("leave:C-2:length", "on"))) Assert.Equal(
            "- id: C-2\n  kind: pair-12\n  label: X\n", Read("cables/added.yaml"));
        Assert.DoesNotContain("C-1", Read("cables/added.yaml"), StringComparison.Ordinal);
    }

    /// <summary>A page of another site can send a form to this machine.</summary>
    [Theory]
    [InlineData("wrong", null)]
    [InlineData(null, "https://elsewhere.example")]
    [InlineData(null, "http://127.0.0.1:1")]
    public async Task A_form_of_another_page_writes_nothing(string? token, string? origin)
    {
        using var answer = await Post(token ?? _session.Token, origin, ("C-1:length", "accept"));
        Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
        Assert.Equal(Cables, Read("cables/a.yaml"));
    }

    [Fact]
    public async Task A_name_that_points_here_is_not_answered()
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, Page) { Content = Form(_session.Token, ("C-1:length", "accept")) };
        request.Headers.Host = "elsewhere.example";
        using var answer = await _client.SendAsync(request, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.MisdirectedRequest, answer.StatusCode);
        Assert.Equal(Cables, Read("cables/a.yaml"));
    }

    [Fact]
    public async Task Later_and_what_changed_meanwhile_are_not_written()
    {
        using (await Post(_session.Token, ("C-1:length", "later"), ("C-1:note", "perhaps"))) Assert.Equal(Cables, Read("cables/a.yaml"));
        var edited = Cables.Replace("4 m", "4.5 m", StringComparison.Ordinal);
        _folder.Write("cables/a.yaml", edited);
        using (await Post(_session.Token, ("C-1:length", "accept"))) Assert.Equal(edited, Read("cables/a.yaml"));
        Assert.Contains(
            "C-1:length: the record was changed meanwhile",
            await _client.GetStringAsync(Page, TestContext.Current.CancellationToken),
            StringComparison.Ordinal);
    }

    public void Dispose()
    {
        _server.Dispose();
        _client.Dispose();
        _folder.Dispose();
    }

    private string Read(string path) => File.ReadAllText(_folder[path]);

    private Task<HttpResponseMessage> Get(string path) => _client.GetAsync(new Uri(Page, path), TestContext.Current.CancellationToken);

    private Task<HttpResponseMessage> Post(string token, params (string Id, string Decision)[] decisions) => Post(token, null, decisions);

    private async Task<HttpResponseMessage> Post(string token, string? origin, params (string Id, string Decision)[] decisions)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, Page) { Content = Form(token, decisions) };
        if (origin is not null) request.Headers.Add("Origin", origin);
        return await _client.SendAsync(request, TestContext.Current.CancellationToken);
    }

    private async Task<HttpResponseMessage> Send(FormUrlEncodedContent form, (string Name, string Value) more)
    {
        var text = await form.ReadAsStringAsync(TestContext.Current.CancellationToken);
        using var content = new StringContent(
            $"{text}&{Uri.EscapeDataString(more.Name)}={more.Value}", null, "application/x-www-form-urlencoded");
        return await _client.PostAsync(Page, content, TestContext.Current.CancellationToken);
    }

    private static FormUrlEncodedContent Form(string token, params (string Id, string Decision)[] decisions) =>
        new(decisions.Select(decision => KeyValuePair.Create(ReviewPage.Field + decision.Id, decision.Decision))
            .Prepend(KeyValuePair.Create("token", token)));

    private static ProposedFact Fact(string key, string value) => new()
    {
        RecordKind = RecordKind.Cable,
        RecordId = "C-1",
        Key = key,
        Value = FactValue.Of(value),
        Origin = new ProposalOrigin("photo.png") { Box = new OriginBox(0.1, 0.2, 0.3, 0.4), Text = "5m" },
    };
}
