using System.Text;
using Archive.Storage.Output;

namespace Archive.Markup.Templates;

/// <summary>A file that a theme brings: a style sheet, a font, a script.</summary>
/// <param name="Path">Path below the site's folder, such as <c>assets/ledger.css</c>.</param>
/// <param name="FullPath">Where it stands on the disk.</param>
public sealed record ThemeAsset(string Path, string FullPath)
{
    /// <summary>The file as it is published: style sheets and scripts without comments and without what only people read, because each
    /// device that opens the site for the first time fetches them.</summary>
    public OutputFile Published => IsStyle || IsScript ? new RenderedFile(Path, Shorten) : new CopiedFile(Path, FullPath, null);

    private bool IsStyle => Path.EndsWith(".css", StringComparison.Ordinal);

    private bool IsScript => Path.EndsWith(".js", StringComparison.Ordinal);

    // There were no links when the theme was read, and none are followed later.
    private RenderedContent Shorten()
    {
        if (new FileInfo(FullPath).LinkTarget is not null) throw new IOException($"{FullPath} changed while the site was being made");
        var text = File.ReadAllText(FullPath);
        return new RenderedContent(Encoding.UTF8.GetBytes(IsStyle ? ShortStyle.Of(text) : ShortScript.Of(text)), []);
    }
}
