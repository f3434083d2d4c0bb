using Archive.Browser.Tests;
using Microsoft.Playwright;
using Xunit;

[assembly: AssemblyFixture(typeof(Chromium))]

namespace Archive.Browser.Tests;

/// <summary>One headless Chromium for all tests; each takes contexts of its own.</summary>
public sealed class Chromium : IAsyncLifetime
{
    /// <summary>How long anything that is awaited may take, in ms: a busy machine is slow, and what comes at once costs nothing.</summary>
    public const float Patience = 180_000;

    private IPlaywright? _playwright;
    private IBrowser? _browser;

    public async ValueTask InitializeAsync()
    {
        Assertions.SetDefaultExpectTimeout(Patience);
        _playwright = await Playwright.CreateAsync();
        _browser = await _playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = "/usr/bin/chromium",
            Args =
            [
                "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
                "--disable-component-update", "--disable-sync"
            ],
            Timeout = Patience,
        });
    }

    public async Task<IBrowserContext> NewContext(BrowserNewContextOptions? options = null)
    {
        var context = await (_browser ?? throw new InvalidOperationException("Chromium was not started.")).NewContextAsync(options);
        context.SetDefaultTimeout(Patience);
        return context;
    }

    public async ValueTask DisposeAsync()
    {
        if (_browser is not null) await _browser.DisposeAsync();
        _playwright?.Dispose();
    }
}
