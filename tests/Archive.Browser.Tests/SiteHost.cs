using System.Net;

namespace Archive.Browser.Tests;

/// <summary>A site on a web host of the plainest kind: files by path, nothing else.</summary>
internal sealed class SiteHost : IDisposable
{
    private readonly HttpListener _listener = new();
    private readonly string _site;

    public SiteHost(string site)
    {
        _site = site;
        for (var port = 18400; ; port++)
        {
            try
            {
                Address = $"http://127.0.0.1:{port}/";
                _listener.Prefixes.Clear();
                _listener.Prefixes.Add(Address);
                _listener.Start();
                break;
            }
            catch (HttpListenerException) when (port < 18500)
            {
                // Taken: the next one.
            }
        }

        _ = Task.Run(Serve);
    }

    /// <summary>Where it stands, with a closing slash.</summary>
    public string Address { get; } = "";

    public void Dispose() => _listener.Close();

    private async Task Serve()
    {
        while (_listener.IsListening)
        {
            HttpListenerContext context;
            try
            {
                context = await _listener.GetContextAsync().ConfigureAwait(false);
            }
            catch (Exception closed) when (closed is HttpListenerException or ObjectDisposedException)
            {
                return;
            }

            var path = Path.Combine(_site, context.Request.Url!.LocalPath.TrimStart('/'));
            var response = context.Response;
            if (File.Exists(path))
            {
                response.ContentType = Path.GetExtension(path) switch { ".html" => "text/html; charset=utf-8", ".css" => "text/css", ".js" => "text/javascript", ".svg" => "image/svg+xml", _ => "application/octet-stream" };
                response.OutputStream.Write(File.ReadAllBytes(path));
            }
            else
            {
                response.StatusCode = 404;
            }

            response.Close();
        }
    }
}
