namespace Archive.Markup.Text;

/// <summary>Finished markup: the only thing that is put into a page as it stands. All other text is escaped when it is written.</summary>
/// <param name="Html">Well-formed HTML or inline SVG in which every piece of record text has been escaped.</param>
public readonly record struct HtmlFragment(string Html)
{
    /// <summary>No markup.</summary>
    public static HtmlFragment None { get; } = new(string.Empty);

    /// <summary>Text as markup: escaped.</summary>
    public static HtmlFragment Encode(string text) => new(HtmlEscaping.Html(text));

    /// <summary>The markup.</summary>
    public override string ToString() => Html ?? string.Empty;
}
