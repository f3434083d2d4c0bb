using System.Runtime.CompilerServices;
using System.Text;
using Archive.Diagnostics;
using Archive.Markup.Templates;
using Scriban;
using Xunit;

namespace Archive.Markup.Tests.Templates;

public sealed class ThemeMemoryTests
{
    // A preview reads the theme again after each change to one of its files.
    [Fact]
    public void A_theme_that_is_no_longer_used_is_let_go()
    {
        var used = Used();
        for (var round = 0; round < 3; round++)
        {
            GC.Collect();
            GC.WaitForPendingFinalizers();
        }

        Assert.False(used.IsAlive);
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static WeakReference Used()
    {
        const string Text = "{{ page }} {{ site }}";
        var theme = new Theme("small", [new ThemeTemplate("layout", new SourceText("layout.html", Text), Template.Parse(Text))], []);
        Assert.Equal("page here", Encoding.UTF8.GetString(theme.Render("layout", "page", "here").Bytes.Span));
        return new WeakReference(theme);
    }
}
