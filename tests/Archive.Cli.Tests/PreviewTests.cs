using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text;
using System.Text.RegularExpressions;
using System.Threading.Channels;
using Archive.Cli.Commands;
using Archive.Cli.Options;
using Archive.Cli.Output;
using Archive.Diagnostics.Rendering;
using Archive.Markup.Templates;
using Xunit;

namespace Archive.Cli.Tests;

public sealed class PreviewTests : IAsyncLifetime
{
    private readonly Asfound _archive = new();
    private readonly CancellationTokenSource _end = new();
    private readonly HttpClient _browser = new(new HttpClientHandler { AllowAutoRedirect = false });
    private readonly Channel<string> _lines = Channel.CreateUnbounded<string>();
    private readonly StringWriter _out = new();
    private int _port;
    private Task<ExitCode> _preview = Task.FromResult(ExitCode.Success);

    private static CancellationToken Patience => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        _archive.Write("letters/dear.txt", "dear");
        _archive.Write(".asfound/preview/site/index.html", "<p>a stranger's page</p>");
        _archive.Write(".asfound/preview/site/site.sha256", "");
        Directory.CreateSymbolicLink(_archive[".asfound/preview/site/letters"], _archive["letters"]);
        var terminal = new Terminal(_out, new Lines(_lines.Writer), TextStyle.Plain, TextStyle.Plain, IsWatched: false);
        var arguments = new Arguments(CommandLine.Make(terminal).Parse(["preview", "--content", _archive["content"], "--port", "0"]));
        _preview = Task.Run(() => PreviewCommand.Run(arguments, terminal, _end.Token));

        // It takes any port that is free, and says which; then it says how the first build ended.
        _browser.BaseAddress = new Uri((await _lines.Reader.ReadAsync(Patience))["Preview at ".Length..].Split(';')[0]);
        _port = _browser.BaseAddress.Port;
        await _lines.Reader.ReadAsync(Patience);
    }

    public async ValueTask DisposeAsync()
    {
        await _end.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => _preview);
        _browser.Dispose();
        _end.Dispose();
        await _out.DisposeAsync();
        _archive.Dispose();
    }

    [Fact]
    public async Task Errors_are_also_written_to_its_terminal()
    {
        Assert.Equal("", _out.ToString());
        _archive.Replace(
            "content/frames/r1.yaml", "- {id: R1-01, name: Receiver one, wieght: 310 kg}\n- {id: R1-02, name: Receiver two}\n");
        while (!(await _lines.Reader.ReadAsync(Patience)).Contains("1 error", StringComparison.Ordinal))
        {
        }

        Assert.Contains("error AF0201: unknown key `wieght` in this frame", _out.ToString(), StringComparison.Ordinal);
        Assert.Contains("help: did you mean `weight`?", _out.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Pages_carry_the_script_and_nothing_is_published()
    {
        var page = await _browser.GetStringAsync("/", Patience);
        Assert.Contains("/.preview/preview.js", page, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFiles(_archive.Cache, "*.html", SearchOption.AllDirectories));
        Assert.Equal(0, (await _archive.Run("publish")).Code);
        Assert.Equal(
            await File.ReadAllTextAsync(_archive["site/index.html"], Patience),
            Regex.Replace(page, "<script src=\"/.preview/preview.js\" data-site=\"[0-9]+\" defer></script>", ""));
        Assert.Equal(
            await File.ReadAllTextAsync(_archive["site/site.sha256"], Patience), await _browser.GetStringAsync("/site.sha256", Patience));
        Assert.Equal("text/javascript", (await _browser.GetAsync("/.preview/preview.js", Patience)).Content.Headers.ContentType!.MediaType);
    }

    [Fact]
    public async Task Files_have_their_types_and_folders_their_slash()
    {
        Assert.Equal("text/html", (await _browser.GetAsync("/frames/R1-01/", Patience)).Content.Headers.ContentType!.MediaType);
        Assert.Equal("text/plain", (await _browser.GetAsync("/site.sha256", Patience)).Content.Headers.ContentType!.MediaType);
        var folder = await _browser.GetAsync("/frames/R1-01", Patience);
        Assert.Equal((HttpStatusCode.PermanentRedirect, "/frames/R1-01/"), (folder.StatusCode, folder.Headers.Location!.OriginalString));
        Assert.Equal(HttpStatusCode.NotFound, (await _browser.GetAsync("/frames/none/", Patience)).StatusCode);
        Assert.Equal(HttpStatusCode.MethodNotAllowed, (await _browser.PostAsync("/", null, Patience)).StatusCode);
    }

    [Fact]
    public async Task A_head_has_what_a_page_has_but_its_body()
    {
        var page = await Raw($"GET / HTTP/1.1\r\nHost: 127.0.0.1:{_port}\r\nConnection: close\r\n\r\n");
        var head = await Raw($"HEAD / HTTP/1.1\r\nHost: 127.0.0.1:{_port}\r\nConnection: close\r\n\r\n");
        Assert.StartsWith("HTTP/1.1 200 ", head, StringComparison.Ordinal);
        Assert.EndsWith("\r\n\r\n", head, StringComparison.Ordinal);
        Assert.Equal(Headers(page), Headers(head));
        Assert.Contains(
            $"Content-Length: {Encoding.UTF8.GetByteCount(page[(page.IndexOf("\r\n\r\n", StringComparison.Ordinal) + 4)..])}",
            Headers(head));

        static string[] Headers(string answer) =>
            [.. answer.Split("\r\n\r\n")[0].Split("\r\n").Where(line => !line.StartsWith("Date: ", StringComparison.Ordinal))];
    }

    [Theory]
    [InlineData("/")]
    [InlineData("/frames/R1-01/")]
    [InlineData("/frames/R1-01")]
    [InlineData("/a/b/c/none")]
    [InlineData("/.preview/preview.js")]
    [InlineData("/.preview/none")]
    public async Task Every_answer_says_what_may_be_loaded_and_that_nothing_keeps_it(string path)
    {
        var answer = await _browser.GetAsync(path, Patience);
        foreach (var (name, value) in ((string, string)[])
        [
            ("Content-Security-Policy", ContentSecurityPolicy.OfPages + "; frame-ancestors 'none'"),
                ("Cache-Control", "no-store"),
                ("X-Content-Type-Options", "nosniff"),
                ("Cross-Origin-Resource-Policy", "same-origin"),
                ("Referrer-Policy", "no-referrer"),
            ])
        {
            Assert.Equal(value, Assert.Single(answer.Headers.GetValues(name)));
        }

        Assert.False(answer.Headers.Contains("Server"));
    }

    [Fact]
    public async Task A_redirection_leads_to_no_other_host() =>
        Assert.StartsWith(
            "HTTP/1.1 404 ",
            await Raw($"GET //frames/R1-01 HTTP/1.1\r\nHost: 127.0.0.1:{_port}\r\nConnection: close\r\n\r\n"),
            StringComparison.Ordinal);

    [Fact]
    public async Task A_port_in_use_is_named()
    {
        var run = await _archive.Run("preview", "--port", $"{_port}");
        Assert.Equal(3, run.Code);
        Assert.Contains($"port {_port} is already in use", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_browser_that_waits_for_changes_does_not_hold_up_the_end()
    {
        using var events = new StreamReader(await _browser.GetStreamAsync("/.preview/events", Patience));
        await _end.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => _preview);
        await Assert.ThrowsAnyAsync<HttpRequestException>(() => _browser.GetAsync("/", Patience));
    }

    [Fact]
    public async Task Only_what_this_run_makes_is_served_and_no_link_is_followed()
    {
        Assert.Contains("Small station", await _browser.GetStringAsync("/", Patience), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await _browser.GetAsync("/letters/dear.txt", Patience)).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await _browser.GetAsync("/frames/r1.yaml", Patience)).StatusCode);
        foreach (var folder in (string[])[_archive.Cache, _archive[".asfound"], _archive[".asfound/preview/site"], _archive["content"]])
        {
            File.WriteAllText(Path.Combine(folder, "more.html"), "more");
            Assert.Equal(HttpStatusCode.NotFound, (await _browser.GetAsync("/more.html", Patience)).StatusCode);
            File.Delete(Path.Combine(folder, "more.html"));
        }
    }

    [Theory]
    [InlineData("/../../content/archive.yaml")]
    [InlineData("/%2e%2e/%2e%2e/content/archive.yaml")]
    [InlineData("/..%2f..%2f..%2fcontent/archive.yaml")]
    [InlineData("/frames/..%5c..%5c/archive.yaml")]
    [InlineData("//etc/passwd")]
    [InlineData("/%2fetc/passwd")]
    [InlineData("/.gitignore")]
    [InlineData("/%00")]
    [InlineData("/%252e%252e/%252e%252e/content/archive.yaml")]
    [InlineData("http://127.0.0.1/../content/archive.yaml")]
    public async Task Nothing_outside_the_site_is_read(string path)
    {
        var answer = await Raw($"GET {path} HTTP/1.1\r\nHost: 127.0.0.1:{_port}\r\nConnection: close\r\n\r\n");
        Assert.Matches(@"\AHTTP/1\.1 (400|404) ", answer);
    }

    [Theory]
    [InlineData("evil.example")]
    [InlineData("localhost.evil.example")]
    [InlineData("127.0.0.1")]
    public async Task Another_host_is_not_answered(string host)
    {
        var answer = await Raw($"GET / HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n");
        Assert.Matches(@"\AHTTP/1\.1 4\d\d ", answer);
        Assert.DoesNotContain("Small station", answer, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_change_reloads_the_page_and_a_fault_is_shown_on_the_last_good_one()
    {
        using var events = new StreamReader(await _browser.GetStreamAsync("/.preview/events", Patience));
        _archive.Replace("content/archive.yaml", "title: Larger station\n");

        // The first site may be reported only now: it is there before it is reported.
        do Assert.Equal("site", await NextEvent(events));
        while (!(await _browser.GetStringAsync("/", Patience)).Contains("Larger station", StringComparison.Ordinal));
        Assert.Equal("", await _browser.GetStringAsync("/.preview/diagnostics", Patience));

        _archive.Replace("content/frames/bad.yaml", "- {id: R2-01, name: <b>Receiver</b>, weight: 310}\n");
        Assert.Equal("diagnostics", await NextEvent(events));
        var panel = await _browser.GetStringAsync("/.preview/diagnostics", Patience);
        Assert.Contains("AF0204", panel, StringComparison.Ordinal);
        Assert.Contains("&lt;b&gt;", panel, StringComparison.Ordinal);
        Assert.Contains("^^^", panel, StringComparison.Ordinal);
        Assert.Contains("Larger station", await _browser.GetStringAsync("/", Patience), StringComparison.Ordinal);

        File.Delete(_archive["content/frames/bad.yaml"]);
        Assert.NotNull(await NextEvent(events));
        Assert.Equal("", await _browser.GetStringAsync("/.preview/diagnostics", Patience));
    }

    [Fact]
    public async Task A_page_that_was_loading_while_the_site_changed_is_told_at_once()
    {
        var old = NumberIn(await _browser.GetStringAsync("/", Patience));
        _archive.Replace("content/archive.yaml", "title: Larger station\n");
        string page;
        do page = await _browser.GetStringAsync("/", Patience);
        while (!page.Contains("Larger station", StringComparison.Ordinal));

        using var late = new StreamReader(await _browser.GetStreamAsync($"/.preview/events?site={old}", Patience));
        Assert.Equal("site", await NextEvent(late));
        using var newest = new StreamReader(await _browser.GetStreamAsync($"/.preview/events?site={NumberIn(page)}", Patience));
        _archive.Replace("content/frames/bad.yaml", "- {id: R2-01, name: Receiver, weight: 310}\n");
        Assert.Equal("diagnostics", await NextEvent(newest));
    }

    private static string NumberIn(string page) => Regex.Match(page, "data-site=\"([0-9]+)\"").Groups[1].Value;

    private static async Task<string?> NextEvent(StreamReader events)
    {
        while (await events.ReadLineAsync(Patience) is { } line)
        {
            if (line.StartsWith("event: ", StringComparison.Ordinal)) return line[7..];
        }

        return null;
    }

    private async Task<string> Raw(string request)
    {
        using var client = new TcpClient();
        await client.ConnectAsync(IPAddress.Loopback, _port, Patience);
        await client.GetStream().WriteAsync(Encoding.ASCII.GetBytes(request), Patience);
        using var reader = new StreamReader(client.GetStream());
        return await reader.ReadToEndAsync(Patience);
    }

    // What is written to it, line by line.
    private sealed class Lines(ChannelWriter<string> lines) : TextWriter(CultureInfo.InvariantCulture)
    {
        private readonly StringBuilder _line = new();

        public override Encoding Encoding => Encoding.UTF8;

        public override void Write(char value)
        {
            if (value != '\n')
            {
                _line.Append(value);
                return;
            }

            lines.TryWrite(_line.ToString());
            _line.Clear();
        }
    }
}
