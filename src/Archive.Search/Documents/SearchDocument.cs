using System.Collections.Immutable;
using System.Text.Json.Serialization;
using Archive.Diagnostics.Rendering;
using Archive.Markup.Links;
using Archive.Records.Model;

namespace Archive.Search.Documents;

/// <summary>
/// One thing that the search finds: a record or another page, with the words and codes it is found by, and what tells it from others.
/// What is shown of it is made visible here.
/// </summary>
/// <param name="Kind">What kind of record; null for a page that is none, such as a plan's.</param>
/// <param name="Id">Its id; of another page its folder.</param>
public sealed record SearchDocument(RecordKind? Kind, string Id)
{
    /// <summary>What one is called, such as <c>frame</c>.</summary>
    [JsonIgnore]
    public string Noun => Kind?.Noun() ?? "page";

    /// <summary>What people call it; empty where that is the id.</summary>
    public string Title { get; init => field = VisibleText.Text(value); } = "";

    /// <summary>What tells it from others at a glance, such as a cable's label; may be empty.</summary>
    public string Lead { get; init => field = VisibleText.Text(value); } = "";

    /// <summary>Places on it or where it ends, each with its anchor on the record's page: a frame's positions, a cable's ends.</summary>
    public ImmutableArray<SearchPlace> Places { get; init; } = [];

    /// <summary>What else tells it, such as a cable's kind; may be empty.</summary>
    public string Tail { get; init => field = VisibleText.Text(value); } = "";

    /// <summary>Texts whose codes and words are its own: id, former ids, label.</summary>
    public ImmutableArray<string> Own { get; init; } = [];

    /// <summary>Texts that name what it touches: where it ends, what it shows, its kind, who recorded it.</summary>
    public ImmutableArray<string> Touches { get; init; } = [];

    /// <summary>What it is called: title, caption.</summary>
    public ImmutableArray<string> Names { get; init; } = [];

    /// <summary>Its prose, without marks, on one line.</summary>
    public string Prose { get; init => field = VisibleText.Text(value); } = "";

    /// <summary>Groups it belongs to.</summary>
    public ImmutableArray<SearchFacet> Facets { get; init; } = [];

    /// <summary>File of the record within the archive.</summary>
    public string File { get; init; } = "";

    /// <summary>Line in that file, from 1.</summary>
    public int Line { get; init; }

    /// <summary>A line that tells it from others: lead, where a cable ends, tail; empty where nothing is known.</summary>
    [JsonIgnore]
    public string Says => string.Join(" · ", new[]
    {
        Lead,
        Kind == RecordKind.Cable ? string.Join(" – ", Places.Select(place => place.Text).Where(text => text.Length > 0)) : "",
        Tail
    }.Where(part => part.Length > 0));

    /// <summary>Path of its page below the site's folder.</summary>
    [JsonIgnore]
    public string Page => Kind is { } kind ? PagePaths.For(kind, Id) : $"{Id}/index.html";
}

/// <summary>A place on a record's page.</summary>
/// <param name="Text">What it is called there, such as <c>S7</c> or <c>R2-05/S7/J14</c>.</param>
/// <param name="Anchor">Its anchor; empty for none.</param>
public readonly record struct SearchPlace(string Text, string Anchor)
{
    /// <summary>What it is called there.</summary>
    public string Text { get; init; } = VisibleText.Text(Text);
}

/// <summary>A group that a record belongs to.</summary>
/// <param name="By">What is grouped by.</param>
/// <param name="Value">The group, as people read it.</param>
public readonly record struct SearchFacet(FacetKind By, string Value)
{
    /// <summary>The group.</summary>
    public string Value { get; init; } = VisibleText.Text(Value);
}

/// <summary>What records are grouped by, beside their kind.</summary>
public enum FacetKind
{
    /// <summary>The functional group of its frames.</summary>
    Module,

    /// <summary>The row that its frames stood in as found.</summary>
    Row,

    /// <summary>A cable's kind.</summary>
    CableKind,

    /// <summary>Month, or year where no month is known.</summary>
    Date,

    /// <summary>Who recorded, photographed or did it.</summary>
    Person,
}
