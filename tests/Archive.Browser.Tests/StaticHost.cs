using System.Collections.Concurrent;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text;

namespace Archive.Browser.Tests;

/// <summary>
/// A plain web host on this machine that serves a folder below <c>/marrow-point/</c>: what service workers ask for, and what a published
/// site stands on.
/// </summary>
/// <remarks>The system chooses the port as it is bound, so nothing else can have taken it.</remarks>
internal sealed class StaticHost : IDisposable
{
    private const string Top = "/marrow-point/";
    private readonly TcpListener _listener = new(IPAddress.Loopback, 0);
    private readonly CancellationTokenSource _end = new();
    private readonly string _folder;

    internal StaticHost(string folder)
    {
        _folder = folder;
        _listener.Start();
        Base = string.Create(CultureInfo.InvariantCulture, $"http://127.0.0.1:{((IPEndPoint)_listener.LocalEndpoint).Port}{Top}");
        _ = Accept();
    }

    internal string Base { get; }

    /// <summary>Texts that stand in for files, by path.</summary>
    internal ConcurrentDictionary<string, string> Instead { get; } = new(StringComparer.Ordinal);

    public void Dispose()
    {
        _end.Cancel();
        _listener.Dispose();
        _end.Dispose();
    }

    private async Task Accept()
    {
        try
        {
            while (true) _ = Answer(await _listener.AcceptTcpClientAsync(_end.Token));
        }
        catch (Exception closed) when (closed is OperationCanceledException or SocketException or ObjectDisposedException)
        {
            // The host was closed.
        }
    }

    // One request after the other on a connection, until the browser goes away.
    private async Task Answer(TcpClient client)
    {
        using (client)
        {
            try
            {
                await using var stream = client.GetStream();
                using var reader = new StreamReader(stream, Encoding.Latin1);
                while (await reader.ReadLineAsync(_end.Token) is { Length: > 0 } request)
                {
                    while (await reader.ReadLineAsync(_end.Token) is { Length: > 0 })
                    {
                        // Nothing that a header says matters here.
                    }

                    await stream.WriteAsync(await AnswerTo(request.Split(' ')[1]), _end.Token);
                }
            }
            catch (Exception gone) when (gone is IOException or OperationCanceledException or ObjectDisposedException)
            {
                // The browser went away, or the host was closed.
            }
        }
    }

    private async Task<byte[]> AnswerTo(string address)
    {
        var path = Uri.UnescapeDataString(new Uri(new Uri("http://localhost"), address).AbsolutePath);
        path = path.StartsWith(Top, StringComparison.Ordinal) ? path[Top.Length..] : "..";
        if (path.Length == 0 || path.EndsWith('/')) path += "index.html";
        var file = Path.GetFullPath(Path.Combine(_folder, path));
        var body = Instead.TryGetValue(path, out var text) ? Encoding.UTF8.GetBytes(text)
            : file.StartsWith(_folder + Path.DirectorySeparatorChar, StringComparison.Ordinal) && File.Exists(file)
            ? await File.ReadAllBytesAsync(file)
            : null;
        var head = string.Create(
            CultureInfo.InvariantCulture,
            $"HTTP/1.1 {(body is null ? "404 Not Found" : "200 OK")}\r\nContent-Type: {TypeOf(path)}\r\nContent-Length: {body?.Length ?? 0}\r\n\r\n");
        return [.. Encoding.ASCII.GetBytes(head), .. body ?? []];
    }

    private static string TypeOf(string path) => Path.GetExtension(path) switch
    {
        ".html" => "text/html; charset=utf-8",
        ".js" => "text/javascript",
        ".css" => "text/css",
        ".json" => "application/json",
        ".svg" => "image/svg+xml",
        ".woff2" => "font/woff2",
        _ => "application/octet-stream",
    };
}
