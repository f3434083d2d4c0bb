using Archive.Diagnostics.Rendering;
using Archive.Search.Documents;
using Xunit;

namespace Archive.Search.Tests;

/// <summary>The search shows what it found as text: none of it moves a cursor or reorders what is beside it.</summary>
public sealed class HarmlessDocumentsTests
{
    [Fact]
    public void What_the_search_shows_has_harmful_characters_made_visible()
    {
        var text = "x\0a\u0001 <b>\u001b[31m\u202ey\u0085\uFDD0z";
        var documents = SearchDocuments.Create(WrittenArchive.Model(HostileArchive.With(text)), []);
        var shown = documents
            .SelectMany(document => new[] { document.Title, document.Lead, document.Tail, document.Prose, document.Says }
                .Concat(document.Places.Select(place => place.Text))
                .Concat(document.Facets.Select(facet => facet.Value)))
            .ToList();
        Assert.Contains(shown, found => found.Contains("<U+202E>y", StringComparison.Ordinal));
        Assert.DoesNotContain(
            shown, found => found.Any(letter => VisibleText.Text(letter.ToString()) != letter.ToString() && letter is not ('\n' or '\t')));
    }

    [Fact]
    public void A_photo_is_found_by_what_was_read_in_it()
    {
        var record = WrittenArchive.Model(
            ("photos/p.yaml", "- {id: P-1, file: a.jpg, regions: [{box: [0, 0, 1, 1], reads: 0205-07J14 0103-02J03}]}\n"));
        Assert.Contains("0205-07J14 0103-02J03", SearchDocuments.Create(record, []).Single().Touches);
    }
}
