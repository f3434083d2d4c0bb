using System.Net;
using System.Net.Mime;
using System.Text;
using Archive.Markup.Templates;

namespace Archive.Cli.Preview;

/// <summary>Serves a site's folder to browsers on this machine and tells them when it changes.</summary>
/// <remarks>
/// It listens on the loopback address alone, answers only requests for that host (a page elsewhere can't read the site through a name that it points
/// here), serves only the files that this run built, follows no link, and takes nothing but GET and HEAD.
/// </remarks>
internal sealed class SiteServer : IDisposable
{
    private const string Own = "/.preview/";

    // What the listener hands on: ERROR_ACCESS_DENIED of Windows, EACCES of Unix.
    private const int AccessDenied = 5, PermissionDenied = 13;
    private readonly HttpListener _listener = new();
    private readonly PreviewState _state;
    private readonly string _host;

    private SiteServer(PreviewState state, int port)
    {
        _state = state;
        _host = $"127.0.0.1:{port}";
        _listener.Prefixes.Add($"http://{_host}/");
    }

    /// <summary>Where it is found.</summary>
    internal Uri Address => new($"http://{_host}/");

    /// <summary>Begins to listen.</summary>
    /// <param name="state">What is served.</param>
    /// <param name="port">The port; where none is asked for, the first free one from 8400 on.</param>
    /// <exception cref="IOException">The port asked for, or every one tried, is taken.</exception>
    internal static SiteServer Start(PreviewState state, int? port)
    {
        for (var tried = port ?? 8400; ; tried++)
        {
            var server = new SiteServer(state, tried);
            try
            {
                server._listener.Start();
                return server;
            }
            catch (Exception exception) when (exception is HttpListenerException or System.Net.Sockets.SocketException)
            {
                server.Dispose();
                if (Denied(exception)) throw new IOException($"port {tried} needs a permission that you do not have; ports from 1024 up do not", exception);
                if (port is not null || tried == 8419) throw new IOException($"port {tried} is already in use", exception);
            }
        }
    }

    /// <summary>Whether a port could not be had for lack of a permission.</summary>
    /// <param name="exception">What the system said.</param>
    internal static bool Denied(Exception exception) => exception switch
    {
        System.Net.Sockets.SocketException socket => socket.SocketErrorCode == System.Net.Sockets.SocketError.AccessDenied,
        HttpListenerException listener => listener.ErrorCode is AccessDenied or PermissionDenied or (int)System.Net.Sockets.SocketError.AccessDenied,
        _ => false,
    };

    /// <summary>Answers requests until it is told to stop.</summary>
    /// <param name="cancellation">Stops it.</param>
    internal async Task Serve(CancellationToken cancellation)
    {
        using var stop = cancellation.Register(_listener.Stop);
        while (!cancellation.IsCancellationRequested)
        {
            try
            {
                var context = await _listener.GetContextAsync().ConfigureAwait(false);
                _ = Task.Run(() => Answer(context, cancellation), CancellationToken.None);
            }
            catch (Exception exception) when (exception is HttpListenerException or ObjectDisposedException or InvalidOperationException)
            {
                if (!_listener.IsListening) return;
            }
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        try
        {
            _listener.Close();
        }
        catch (Exception exception) when (exception is HttpListenerException or System.Net.Sockets.SocketException)
        {
            // While closing, the listener may bind its port once more to take its prefix out; by then another program may have the port. It is closed all the same.
        }
    }

    private async Task Answer(HttpListenerContext context, CancellationToken cancellation)
    {
        var response = context.Response;
        try
        {
            response.Headers["Cache-Control"] = "no-store";
            response.Headers["X-Content-Type-Options"] = "nosniff";
            response.Headers["Cross-Origin-Resource-Policy"] = "same-origin";
            response.Headers["Referrer-Policy"] = "no-referrer";
            var path = context.Request.Url?.AbsolutePath ?? "/";

            // What pages say themselves, and what only a header can: nothing may show the preview in a frame.
            response.Headers["Content-Security-Policy"] = (path == "/404.html" ? ContentSecurityPolicy.OfNotFoundPage : ContentSecurityPolicy.OfPages) + "; frame-ancestors 'none'";
            if (context.Request.UserHostName != _host) await Text(context, 421, "this server answers only for " + _host).ConfigureAwait(false);
            else if (context.Request.HttpMethod is not ("GET" or "HEAD")) await Text(context, 405, "only GET and HEAD are answered").ConfigureAwait(false);
            else if (path == Own + "events") await _state.Listen(response, cancellation).ConfigureAwait(false);
            else if (path.StartsWith(Own, StringComparison.Ordinal)) await OwnFile(context, path[Own.Length..]).ConfigureAwait(false);
            else await SiteFile(context, path).ConfigureAwait(false);
            response.Close();
        }
        catch (Exception exception) when (exception is HttpListenerException or IOException or ObjectDisposedException or InvalidOperationException or OperationCanceledException)
        {
            response.Abort(); // the browser went away, or the file did
        }
    }

    private Task OwnFile(HttpListenerContext context, string name) => name switch
    {
        "preview.js" => Send(context, 200, "text/javascript; charset=utf-8", PreviewPage.Script),
        "panel.css" => Send(context, 200, "text/css; charset=utf-8", PreviewPage.PanelStyle),
        "faults" => Send(context, 200, "text/html; charset=utf-8", Encoding.UTF8.GetBytes(PreviewPage.DiagnosticsPanel(_state.Latest))),
        _ => Text(context, 404, "there is no such file"),
    };

    private async Task SiteFile(HttpListenerContext context, string path)
    {
        if (UrlPaths.Find(_state.Files, path) is not { } found || !UrlPaths.IsReachedWithoutLink(_state.Site, found.Path))
        {
            await NotThere(context).ConfigureAwait(false);
        }
        else if (found.IsFolderWithoutSlash)
        {
            context.Response.Headers["Location"] = path + "/";
            await Text(context, 308, "the address ends with /").ConfigureAwait(false);
        }
        else
        {
            var bytes = await File.ReadAllBytesAsync(Path.Combine(_state.Site, found.Path)).ConfigureAwait(false);
            var type = UrlPaths.ContentType(found.Path);
            await Send(context, 200, type, type.StartsWith(MediaTypeNames.Text.Html, StringComparison.Ordinal) ? PreviewPage.WithScript(bytes) : bytes).ConfigureAwait(false);
        }
    }

    // Before the first site stands, every address shows why.
    private Task NotThere(HttpListenerContext context)
    {
        var words = _state.Files.Count > 0 ? "This page does not exist." : "There is no site yet.";
        return Send(context, 404, "text/html; charset=utf-8", PreviewPage.WithScript(Encoding.UTF8.GetBytes(PreviewPage.Bare(words))));
    }

    private static Task Text(HttpListenerContext context, int status, string text) => Send(context, status, "text/plain; charset=utf-8", Encoding.UTF8.GetBytes(text + "\n"));

    private static async Task Send(HttpListenerContext context, int status, string type, ReadOnlyMemory<byte> bytes)
    {
        context.Response.StatusCode = status;
        context.Response.ContentType = type;
        context.Response.ContentLength64 = bytes.Length;
        if (context.Request.HttpMethod != "HEAD") await context.Response.OutputStream.WriteAsync(bytes).ConfigureAwait(false);
    }
}
