using Archive.Markup.Templates;
using Xunit;

namespace Archive.Markup.Tests.Templates;

public sealed class TemplateNamesTests
{
    // A theme without a template that is used would pass its check and fail at the first page that needs it.
    [Fact]
    public void Every_template_of_the_theme_that_comes_with_asfound_is_asked_of_every_theme()
    {
        var shipped = Directory.GetFiles(Path.Combine(Repository.Root, "themes/ledger/templates"), "*.html")
            .Select(Path.GetFileNameWithoutExtension);
        Assert.Equal(shipped.Order(StringComparer.Ordinal), TemplateNames.All.Order(StringComparer.Ordinal));
    }
}
