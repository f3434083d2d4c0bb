using NetVips;

namespace Archive.Photos.Images;

/// <summary>Arranges libvips, once, before its first use: one thread a picture (the photos run in parallel), no cache of pictures, and only
/// the loaders of what is taken.</summary>
internal static class VipsSetup
{
    private static readonly Lazy<bool> Arranged = new(Arrange);

    /// <summary>Arranges the library if that is still to be done.</summary>
    /// <exception cref="DllNotFoundException">The native library is not beside the tool.</exception>
    public static void Open() => _ = Arranged.Value;

    private static bool Arrange()
    {
        NetVips.NetVips.Concurrency = 1;
        Cache.Max = 0;

        // What it warns of is either borne or comes back as an error at the record's line; the console is not its to write on.
        _ = Log.SetLogHandler("VIPS", Enums.LogLevelFlags.Warning, static (_, _, _) => { });
        Operation.Block("VipsForeignLoad", true);
        foreach (var loader in (ReadOnlySpan<string>)[
            "VipsForeignLoadJpeg",
            "VipsForeignLoadPng",
            "VipsForeignLoadTiff",
            "VipsForeignLoadWebp",
            "VipsForeignLoadHeif"
        ])
        {
            Operation.Block(loader, false);
        }

        return true;
    }
}
