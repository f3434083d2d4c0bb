using System.Collections.Immutable;
using Archive.Markup.Links;
using Archive.Markup.Text;

namespace Archive.Site.Parts;

/// <summary>An event as a line of a record's history.</summary>
/// <param name="On">When.</param>
/// <param name="What">What happened.</param>
/// <param name="Of">To what; left out on the page of the only one.</param>
/// <param name="More">How many further records it happened to, beyond those listed.</param>
/// <param name="To">The hall where that was, or that it went to; null where none is recorded.</param>
/// <param name="Into">The box that it was packed into; null for none.</param>
/// <param name="Place">The place in that hall.</param>
/// <param name="By">Who did it.</param>
public sealed record EventLine(
    RecordLink Event,
    string On,
    string What,
    ImmutableArray<RecordLink> Of,
    int More,
    Link? To,
    RecordLink? Into,
    string Place,
    string By,
    HtmlFragment Note);
