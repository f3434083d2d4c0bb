using Archive.Markup.Text;
using Xunit;

namespace Archive.Markup.Tests.Text;

public sealed class UnbrokenIdsTests
{
    [Theory]
    [InlineData("sleeve of C-1435, shaken", "sleeve of <span class=\"unbroken\">C-1435</span>, shaken")]
    [InlineData("1.34 m to R3-01", "1.34 m to <span class=\"unbroken\">R3-01</span>")]
    [InlineData("T-02, then T-10.", "<span class=\"unbroken\">T-02</span>, then <span class=\"unbroken\">T-10</span>.")]
    [InlineData("the thirty-two lines", "the thirty-two lines")]
    [InlineData("<b>-1 & \"x\"", "&lt;b&gt;-1 &amp; &quot;x&quot;")]
    [InlineData("A-1<script>", "<span class=\"unbroken\">A-1&lt;script&gt;</span>")]
    [InlineData("  A-1  ", "  <span class=\"unbroken\">A-1</span>  ")]
    [InlineData("a-1234567890123456789012345678", "a-1234567890123456789012345678")]
    [InlineData("-5 m", "-5 m")]
    [InlineData("", "")]
    public void An_id_does_not_break_at_its_hyphen(string text, string html) => Assert.Equal(html, UnbrokenIds.In(text).Html);
}
