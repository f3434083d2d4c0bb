using System.Globalization;
using System.Net;
using System.Net.Mime;
using System.Net.Sockets;
using System.Text;
using Archive.Markup.Templates;
using Archive.Proposals;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Connections;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;

namespace Archive.Cli.Preview;

/// <summary>Serves a site to browsers on this machine, file by file as they ask for it, and notifies them when it changes.</summary>
/// <remarks>
/// It listens on the loopback address alone, answers only requests for that host (a page elsewhere can't read the site through a name that
/// it points here), serves only what this run makes from the record and the pictures of proposals, and takes nothing but GET and HEAD; but
/// for decisions about proposals, which need the token of the page.
/// </remarks>
internal sealed class SiteServer : IDisposable
{
    private const string Own = "/.preview/";
    private const int FirstPort = 8400, LastPort = 8419;
    private static readonly TimeSpan ForLastAnswers = TimeSpan.FromMilliseconds(500);
    private readonly WebApplication _application;
    private readonly PreviewState _state;
    private readonly ReviewSession? _review;
    private string _host = "";

    private SiteServer(PreviewState state, int port, ReviewSession? review)
    {
        _state = state;
        _review = review;

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
    /// <param name="review">Proposals to decide; null for none.</param>
    /// <exception cref="IOException">The port asked for, or every one tried, is in use, or needs a permission.</exception>
    internal static SiteServer Start(PreviewState state, int? port, ReviewSession? review = null)
    {
        for (var tried = port ?? FirstPort; ; tried++)
        {
            var server = new SiteServer(state, tried, review);
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
            else if (_review is not null && path.StartsWith(ReviewPage.Path, StringComparison.Ordinal))
                await Review(context, _review, path[ReviewPage.Path.Length..]).ConfigureAwait(false);
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
            context.Abort(); // the browser went away, or a picture did
        }
    }

    // Until the browser goes away or the preview stops.
    private async Task Events(HttpContext context)
    {
        using var end = CancellationTokenSource.CreateLinkedTokenSource(context.RequestAborted, _application.Lifetime.ApplicationStopping);
        var isTold = long.TryParse(context.Request.Query["site"], NumberStyles.None, CultureInfo.InvariantCulture, out var number);
        await _state.Listen(context.Response, isTold ? number : null, end.Token).ConfigureAwait(false);
    }

    private async Task Review(HttpContext context, ReviewSession review, string rest)
    {
        context.Response.Headers.ContentSecurityPolicy = ReviewPage.Policy;
        if (HttpMethods.IsPost(context.Request.Method) && rest.Length == 0) await Decide(context, review).ConfigureAwait(false);
        else if (!HttpMethods.IsGet(context.Request.Method) && !HttpMethods.IsHead(context.Request.Method))
            await Text(context, StatusCodes.Status405MethodNotAllowed, "only GET, HEAD and POST are answered").ConfigureAwait(false);
        else if (rest.Length == 0)
            await Send(context, "text/html; charset=utf-8", Encoding.UTF8.GetBytes(ReviewPage.Html(review))).ConfigureAwait(false);
        else if (ReviewPage.CutoutAt(review, rest) is { } cutout)
            await Send(context, MediaTypeNames.Image.Jpeg, cutout).ConfigureAwait(false);
        else if (rest == ReviewPage.DrawingName && review.Drawing is { } drawing)
        {
            // It has its style in itself, and loads and runs nothing.
            context.Response.Headers.ContentSecurityPolicy = "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'";
            await Send(context, "image/svg+xml", drawing).ConfigureAwait(false);
        }
        else if (ReviewPage.PictureAt(review, rest) is { } path)
        {
            context.Response.ContentType = UrlPaths.ContentType(path.ToLowerInvariant());
            using var picture = File.OpenRead(path);
            await picture.CopyToAsync(context.Response.Body, context.RequestAborted).ConfigureAwait(false);
        }
        else
        {
            await Text(context, StatusCodes.Status404NotFound, "there is no such file").ConfigureAwait(false);
        }
    }

    // Another page of the browser can send a form here, but it knows no token, and says itself where it comes from.
    private async Task Decide(HttpContext context, ReviewSession review)
    {
        var origin = context.Request.Headers.Origin.ToString();
        if (!context.Request.HasFormContentType || (origin.Length > 0 && origin is not "null" && origin != "http://" + _host))
        {
            await Text(context, StatusCodes.Status403Forbidden, "decisions come from the page of proposals alone").ConfigureAwait(false);
            return;
        }

        var form = await context.Request.ReadFormAsync(new FormOptions { ValueCountLimit = 10_000 }, context.RequestAborted)
            .ConfigureAwait(false);
        if (!review.IsToken(form["token"]))
        {
            await Text(context, StatusCodes.Status403Forbidden, "this page is from an earlier run: open it again").ConfigureAwait(false);
            return;
        }

        review.Decide(
            form.Where(field => field.Key.StartsWith(ReviewPage.Field, StringComparison.Ordinal)).ToDictionary(
                field => field.Key[ReviewPage.Field.Length..],
                field => new Decided(
                    ReviewDecisions.Parse(field.Value.ToString()) ?? Decision.Later,
                    form[ReviewPage.Instead + field.Key[ReviewPage.Field.Length..]].ToString().Trim()),
                StringComparer.Ordinal),
            form.Keys.Where(key => key.StartsWith(ReviewPage.LeftOut, StringComparison.Ordinal))
                .Select(key => key[ReviewPage.LeftOut.Length..]).ToHashSet(StringComparer.Ordinal));
        context.Response.Headers.Location = ReviewPage.Path;
        context.Response.StatusCode = StatusCodes.Status303SeeOther;
    }

    private Task OwnFile(HttpContext context, string name) => name switch
    {
        "review.js" => Send(context, "text/javascript; charset=utf-8", ReviewPage.Script),
        "review.css" => Send(context, "text/css; charset=utf-8", ReviewPage.Style),
        "preview.js" => Send(context, "text/javascript; charset=utf-8", PreviewPage.Script),
        "panel.css" => Send(context, "text/css; charset=utf-8", PreviewPage.PanelStyle),
        "diagnostics" => Send(context, "text/html; charset=utf-8", Encoding.UTF8.GetBytes(PreviewPage.DiagnosticsPanel(_state.Latest))),
        _ => Text(context, StatusCodes.Status404NotFound, "there is no such file"),
    };

    private async Task SiteFile(HttpContext context, string path)
    {
        // One site, though another may take its place meanwhile.
        var now = _state.Now;
        if (now.Site is not { } site || UrlPaths.Find(site.Has, path) is not { } found)
        {
            await NotThere(context, now).ConfigureAwait(false);
        }
        else if (found.IsFolderWithoutSlash)
        {
            context.Response.Headers.Location = context.Request.Path.ToUriComponent() + "/";
            await Text(context, StatusCodes.Status308PermanentRedirect, "the address ends with /").ConfigureAwait(false);
        }
        else
        {
            var (bytes, diagnostics) = site.Read(found.Path)!.Value;
            if (diagnostics.IsEmpty)
            {
                var type = UrlPaths.ContentType(found.Path);
                await Send(context, type, type.StartsWith(MediaTypeNames.Text.Html, StringComparison.Ordinal)
                    ? PreviewPage.WithScript(bytes.Span, now.Number)
                    : bytes).ConfigureAwait(false);
            }
            else
            {
                _state.Report(diagnostics);
                context.Response.StatusCode = StatusCodes.Status500InternalServerError;
                await Send(context, "text/html; charset=utf-8", PreviewPage.WithScript(
                    Encoding.UTF8.GetBytes(PreviewPage.Faulty(diagnostics)), now.Number)).ConfigureAwait(false);
            }
        }
    }

    // Before the first site stands, every address shows why.
    private static Task NotThere(HttpContext context, PreviewState.Shown now)
    {
        var words = now.Site is not null ? "This page does not exist." : "There is no site yet.";
        context.Response.StatusCode = StatusCodes.Status404NotFound;
        var page = PreviewPage.WithScript(Encoding.UTF8.GetBytes(PreviewPage.Bare(words)), now.Number);
        return Send(context, "text/html; charset=utf-8", page);
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
