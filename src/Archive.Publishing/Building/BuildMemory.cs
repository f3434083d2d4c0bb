using Archive.Markup.Templates;
using Archive.Photos.Caching;
using Archive.Plans;
using Archive.Records.Model;
using Archive.Records.Reading;

namespace Archive.Publishing.Building;

/// <summary>
/// What one build leaves to the next of the same process: parsed files, the theme, developed photos. Each entry is used only while what it
/// was made from is the same; so a build with a memory gives what one without gives.
/// </summary>
internal sealed class BuildMemory
{
    private (string Key, Theme Theme)? _theme;

    /// <summary>The files of the latest reading.</summary>
    internal ParsedFiles? Files { get; set; }

    internal PhotoMemory Photos { get; } = new();

    /// <summary>What the plans of the latest record were calculated from.</summary>
    internal PlanContext? Plans { get; set; }

    /// <summary>The theme that a record asks for.</summary>
    /// <param name="shelf">Where themes stand.</param>
    /// <param name="content">What stands for the content of all themes.</param>
    /// <param name="statement">What archive.yaml says.</param>
    internal (Theme? Theme, System.Collections.Immutable.ImmutableArray<Archive.Diagnostics.Diagnostic> Faults) ReadTheme(
        ThemeLoader shelf, string content, ArchiveStatement statement)
    {
        var key = $"{content}\n{statement.Theme?.Value}";
        if (_theme is { } known && known.Key == key) return (known.Theme, []);
        var read = shelf.Read(statement);
        _theme = read.Theme is { } theme && read.Faults.IsEmpty ? (key, theme) : null;
        return read;
    }
}
