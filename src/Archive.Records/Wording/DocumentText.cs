using Archive.Records.Model;

namespace Archive.Records.Wording;

/// <summary>Words for documents.</summary>
public static class DocumentText
{
    /// <summary>What a document is, such as <c>wiring book</c>.</summary>
    public static string Noun(Document document) => document.Type?.Value switch
    {
        null or DocumentType.Other => "document",
        DocumentType.WiringBook => "wiring book",
        { } type => type.ToString().ToLowerInvariant(),
    };

    /// <summary>What it is, its number and its issue, such as <c>drawing MP 114, issue C</c>.</summary>
    public static string Describe(Document document) => Noun(document)
        + (document.Number is { } number ? $" {Phrase.OneLine(number.Value)}" : "")
        + (document.Issue is { } issue ? $", issue {Phrase.OneLine(issue.Value)}" : "");
}
