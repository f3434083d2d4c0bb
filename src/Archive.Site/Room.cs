namespace Archive.Site;

/// <summary>
/// The site: the record and its plans as pages that a stranger can use. <c>Build/</c> composes the rooms; <c>Pages/</c> makes typed
/// view models; <c>Templates/</c> and <c>Prose/</c> turn them into markup that record text cannot become; <c>Drawings/</c> draws;
/// <c>Data/</c> and <c>Search/</c> write what programs read; <c>Publication/</c> puts the finished site in place in one step.
/// </summary>
/// <remarks>Invariant: only <c>Publication/</c> writes, and only below the site's folder; no page asks anything of another host.</remarks>
public static class Room;
