using System.Net;
using System.Net.Mime;
using System.Net.Sockets;
using System.Text;
using Archive.Markup.Templates;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Connections;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;

namespace Archive.Cli.Preview;

/// <summary>Serves a site's folder to browsers on this machine and notifies them when it changes.</summary>
/// <remarks>
/// It listens on the loopback address alone, answers only requests for that host (a page elsewhere can't read the site through a name that
/// it points here), serves only the files that this run built, follows no link, and takes nothing but GET and HEAD.
/// </remarks>
internal sealed class SiteServer : IDisposable
{
    private const string Own = "/.preview/";
    private const int FirstPort = 8400, LastPort = 8419;
    private static readonly TimeSpan ForLastAnswers = TimeSpan.FromMilliseconds(500);
    private readonly WebApplication _application;
    private readonly PreviewState _state;
    private string _host = "";

    private SiteServer(PreviewState state, int port)
    {
        _state = state;

        // The empty builder reads no settings from files or the environment: nothing but what is written here decides what is served, and
        // where.
        var builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions { EnvironmentName = Environments.Production });
        builder.WebHost.UseKestrelCore().ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Listen(IPAddress.Loopback, port, listen => listen.Protocols = HttpProtocols.Http1);
        });
        builder.Services.AddSingleton<IHostLifetime, SignalsAreHandledElsewhere>();
        _application = builder.Build();
        _application.Run(Answer);
    }

    /// <summary>Where it is found.</summary>
    internal Uri Address => new($"http://{_host}/");

    /// <summary>Begins to answer requests.</summary>
    /// <param name="state">What is served.</param>
    /// <param name="port">The port, or 0 for any that is free; where none is asked for, the first free one from 8400 on.</param>
    /// <exception cref="IOException">The port asked for, or every one tried, is in use, or needs a permission.</exception>
    internal static SiteServer Start(PreviewState state, int? port)
    {
        for (var tried = port ?? FirstPort; ; tried++)
        {
            var server = new SiteServer(state, tried);
            try
            {
                server._application.Start();
                server._host = new Uri(server._application.Urls.Single()).Authority;
                return server;
            }
            catch (Exception exception) when (exception is IOException { InnerException: AddressInUseException } or SocketException)
            {
                server.Dispose();
                if (exception is SocketException { SocketErrorCode: SocketError.AccessDenied })
                {
                    throw new IOException($"port {tried} needs a permission that you do not have; ports from 1024 up do not", exception);
                }

                if (port is not null || tried == LastPort) throw new IOException($"port {tried} is already in use", exception);
            }
        }
    }

    /// <summary>Stops it. Answers that have begun have half a second to end.</summary>
    public void Dispose()
    {
        using var patience = new CancellationTokenSource(ForLastAnswers);
        try
        {
            _application.StopAsync(patience.Token).GetAwaiter().GetResult();
        }
        catch (OperationCanceledException)
        {
            // The half second is over; what follows closes every connection.
        }

        ((IDisposable)_application).Dispose();
    }

    private async Task Answer(HttpContext context)
    {
        var headers = context.Response.Headers;
        headers.CacheControl = "no-store";
        headers.XContentTypeOptions = "nosniff";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
        headers["Referrer-Policy"] = "no-referrer";
        var path = context.Request.Path.Value ?? "";

        // What pages say themselves, and what only a header can: nothing may show the preview in a frame.
        headers.ContentSecurityPolicy = (path == "/404.html"
            ? ContentSecurityPolicy.OfNotFoundPage
            : ContentSecurityPolicy.OfPages) + "; frame-ancestors 'none'";
        try
        {
            if (context.Request.Host.Value != _host)
                await Text(context, StatusCodes.Status421MisdirectedRequest, "this server answers only for " + _host).ConfigureAwait(false);
            else if (!HttpMethods.IsGet(context.Request.Method) && !HttpMethods.IsHead(context.Request.Method))
            {
                await Text(context, StatusCodes.Status405MethodNotAllowed, "only GET and HEAD are answered").ConfigureAwait(false);
            }
            else if (path == Own + "events") await Events(context).ConfigureAwait(false);
            else if (path.StartsWith(Own, StringComparison.Ordinal)) await OwnFile(context, path[Own.Length..]).ConfigureAwait(false);
            else await SiteFile(context, path).ConfigureAwait(false);
        }
        catch (Exception exception) when (exception is IOException or OperationCanceledException)
        {
            context.Abort(); // the browser went away, or the file did
        }
    }

    // Until the browser goes away or the preview stops.
    private async Task Events(HttpContext context)
    {
        using var end = CancellationTokenSource.CreateLinkedTokenSource(context.RequestAborted, _application.Lifetime.ApplicationStopping);
        await _state.Listen(context.Response, end.Token).ConfigureAwait(false);
    }

    private Task OwnFile(HttpContext context, string name) => name switch
    {
        "preview.js" => Send(context, "text/javascript; charset=utf-8", PreviewPage.Script),
        "panel.css" => Send(context, "text/css; charset=utf-8", PreviewPage.PanelStyle),
        "diagnostics" => Send(context, "text/html; charset=utf-8", Encoding.UTF8.GetBytes(PreviewPage.DiagnosticsPanel(_state.Latest))),
        _ => Text(context, StatusCodes.Status404NotFound, "there is no such file"),
    };

    private async Task SiteFile(HttpContext context, string path)
    {
        if (UrlPaths.Find(_state.Files, path) is not { } found || !UrlPaths.IsReachedWithoutLink(_state.Site, found.Path))
        {
            await NotThere(context).ConfigureAwait(false);
        }
        else if (found.IsFolderWithoutSlash)
        {
            context.Response.Headers.Location = context.Request.Path.ToUriComponent() + "/";
            await Text(context, StatusCodes.Status308PermanentRedirect, "the address ends with /").ConfigureAwait(false);
        }
        else
        {
            var bytes = await File.ReadAllBytesAsync(Path.Combine(_state.Site, found.Path), context.RequestAborted).ConfigureAwait(false);
            var type = UrlPaths.ContentType(found.Path);
            await Send(context, type, type.StartsWith(MediaTypeNames.Text.Html, StringComparison.Ordinal)
                ? PreviewPage.WithScript(bytes)
                : bytes).ConfigureAwait(false);
        }
    }

    // Before the first site stands, every address shows why.
    private Task NotThere(HttpContext context)
    {
        var words = _state.Files.Count > 0 ? "This page does not exist." : "There is no site yet.";
        context.Response.StatusCode = StatusCodes.Status404NotFound;
        return Send(context, "text/html; charset=utf-8", PreviewPage.WithScript(Encoding.UTF8.GetBytes(PreviewPage.Bare(words))));
    }

    private static Task Text(HttpContext context, int status, string text)
    {
        context.Response.StatusCode = status;
        return Send(context, "text/plain; charset=utf-8", Encoding.UTF8.GetBytes(text + "\n"));
    }

    // For HEAD, Kestrel leaves the body out.
    private static Task Send(HttpContext context, string type, ReadOnlyMemory<byte> bytes)
    {
        context.Response.ContentType = type;
        context.Response.ContentLength = bytes.Length;
        return context.Response.Body.WriteAsync(bytes, context.RequestAborted).AsTask();
    }

    /// <summary>Ctrl-C and SIGTERM belong to <see cref="Output.Interruption"/>; the usual lifetime of a host would take them too.</summary>
    private sealed class SignalsAreHandledElsewhere : IHostLifetime
    {
        public Task WaitForStartAsync(CancellationToken cancellationToken) => Task.CompletedTask;

        public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;
    }
}
