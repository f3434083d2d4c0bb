using System.Runtime.InteropServices;
using Archive.Cli.Options;

namespace Archive.Cli.Output;

/// <summary>
/// Ends the process when Ctrl-C or SIGTERM asks for it. The first signal cancels <see cref="Token"/>, and the command puts its work away; a
/// second one, or
/// <see cref="Grace"/> without an end, stops the process where it is. Whatever is on disk then is safe: everything that is written gets its
/// name in one step.
/// </summary>
internal sealed partial class Interruption : IDisposable
{
    /// <summary>
    /// How long a command may take to put its work away. With the end of the process it must stay below two seconds, on a busy machine too.
    /// </summary>
    private static readonly TimeSpan Grace = TimeSpan.FromMilliseconds(500);

    // A terminal or pipe that nobody reads must not hold up the end.
    private static readonly TimeSpan ForLastWords = TimeSpan.FromMilliseconds(100);

    private readonly CancellationTokenSource _source = new();
    private readonly ManualResetEventSlim _asked = new();
    private readonly List<PosixSignalRegistration> _registrations = [];
    private Action? _lastWords;
    private int _code;

    private Interruption()
    {
        // A thread of its own, begun before it is needed: those of the pool may all be at work, and a busy machine begins one late.
        new Thread(StopAfterGrace) { IsBackground = true, Name = "grace" }.Start();
        _registrations.Add(PosixSignalRegistration.Create(PosixSignal.SIGINT, Take));
        _registrations.Add(PosixSignalRegistration.Create(PosixSignal.SIGTERM, Take));
    }

    /// <summary>Is cancelled by the first signal.</summary>
    internal CancellationToken Token => _source.Token;

    /// <summary>How the process ends because of a signal; null while there was none.</summary>
    internal ExitCode? Code => Volatile.Read(ref _code) is not 0 and var code ? (ExitCode)code : null;

    /// <summary>Begins to listen; before it does, a signal ends the process by itself.</summary>
    internal static Interruption Listen() => new();

    /// <summary>What is said when the process is stopped where it is.</summary>
    /// <param name="words">Says it.</param>
    internal void OnStop(Action words) => Volatile.Write(ref _lastWords, words);

    /// <summary>Signals mean again what they mean to the system.</summary>
    public void Dispose() => _registrations.ForEach(registration => registration.Dispose());

    private void Take(PosixSignalContext context)
    {
        context.Cancel = true; // the runtime's own way out waits for threads that may wait for us
        var code = context.Signal == PosixSignal.SIGINT ? ExitCode.Interrupted : ExitCode.Terminated;
        if (Interlocked.CompareExchange(ref _code, (int)code, 0) != 0) Stop();
        _asked.Set();
        _source.Cancel();
    }

    private void StopAfterGrace()
    {
        _asked.Wait(CancellationToken.None);
        Thread.Sleep(Grace);
        Stop();
    }

    private void Stop()
    {
        if (Volatile.Read(ref _lastWords) is { } words)
        {
            var speaker = new Thread(() => words()) { IsBackground = true, Name = "last words" };
            speaker.Start();
            speaker.Join(ForLastWords);
        }

        // Without finalizers and without what libraries do at an end: a thread of theirs may hold what that would wait for.
        if (OperatingSystem.IsWindows()) Environment.Exit(_code);
        else ExitNow(_code);
    }

    [LibraryImport("libc", EntryPoint = "_exit")]
    private static partial void ExitNow(int code);

    /// <summary>Whether work was given up because someone asked for it; of work done side by side, all that was left of it.</summary>
    internal static bool IsBehind(Exception exception) =>
        exception is OperationCanceledException
            || (exception is AggregateException many && many.Flatten().InnerExceptions.All(each => each is OperationCanceledException));
}
