using System.Collections.Concurrent;
using System.Net;
using System.Net.Sockets;

namespace Archive.Browser.Tests;

/// <summary>A plain web host on this machine that serves a folder below <c>/marrow-point/</c>: what service workers ask for, and what a published site stands on.</summary>
internal sealed class StaticHost : IDisposable
{
    private readonly HttpListener _listener;
    private readonly string _folder;

    internal StaticHost(string folder)
    {
        _folder = folder;
        (_listener, Base) = Open();
        _ = Task.Run(Serve);
    }

    internal string Base { get; }

    /// <summary>Texts that stand in for files, by path.</summary>
    internal ConcurrentDictionary<string, string> Instead { get; } = new(StringComparer.Ordinal);

    public void Dispose() => _listener.Close();

    // A port that was free a moment ago may be another run's by now; a listener that could not start is of no more use.
    private static (HttpListener Listener, string Base) Open()
    {
        for (var tries = 0; ; tries++)
        {
            var listener = new HttpListener();
            var address = $"http://localhost:{FreePort()}/marrow-point/";
            listener.Prefixes.Add(address);
            try
            {
                listener.Start();
                return (listener, address);
            }
            catch (HttpListenerException) when (tries < 20)
            {
                listener.Close();
            }
        }
    }

    private static int FreePort()
    {
        using var probe = new TcpListener(IPAddress.Loopback, 0);
        probe.Start();
        return ((IPEndPoint)probe.LocalEndpoint).Port;
    }

    private async Task Serve()
    {
        while (_listener.IsListening)
        {
            try
            {
                var context = await _listener.GetContextAsync();
                await Answer(context);
            }
            catch (Exception closed) when (closed is HttpListenerException or ObjectDisposedException)
            {
                // The browser went away, or the host was closed: the loop's condition tells which.
            }
        }
    }

    private async Task Answer(HttpListenerContext context)
    {
        var path = Uri.UnescapeDataString(context.Request.Url!.AbsolutePath["/marrow-point/".Length..]);
        if (path.Length == 0 || path.EndsWith('/')) path += "index.html";
        var file = Path.Combine(_folder, path);
        context.Response.ContentType = Path.GetExtension(path) switch
        {
            ".html" => "text/html; charset=utf-8",
            ".js" => "text/javascript",
            ".css" => "text/css",
            ".json" => "application/json",
            ".svg" => "image/svg+xml",
            ".woff2" => "font/woff2",
            _ => "application/octet-stream",
        };
        if (Instead.TryGetValue(path, out var text)) await context.Response.OutputStream.WriteAsync(System.Text.Encoding.UTF8.GetBytes(text));
        else if (File.Exists(file)) await context.Response.OutputStream.WriteAsync(await File.ReadAllBytesAsync(file));
        else context.Response.StatusCode = 404;
        context.Response.Close();
    }
}
