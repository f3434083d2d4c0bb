using System.Collections.Immutable;

namespace Archive.Site;

/// <summary>One thing that the search finds: a record, with the words it is found by.</summary>
/// <param name="Noun">What it is, such as <c>frame</c>.</param>
/// <param name="Id">Its id.</param>
/// <param name="Title">What people call it; the id where it has no name.</param>
/// <param name="Page">Path of its page below the site's folder.</param>
/// <param name="Says">A line that helps to tell it from others.</param>
/// <param name="Fields">Its texts, each with its weight.</param>
public sealed record SearchDocument(string Noun, string Id, string Title, string Page, string Says, ImmutableArray<SearchField> Fields);

/// <summary>A text that a document is found by.</summary>
/// <param name="Text">The text, as people read it.</param>
/// <param name="Weight">1 to 9: how much a word in it counts.</param>
public readonly record struct SearchField(string Text, int Weight);
