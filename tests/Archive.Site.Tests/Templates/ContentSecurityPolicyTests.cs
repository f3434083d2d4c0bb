using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using AngleSharp.Html.Parser;
using Archive.Diagnostics;
using Archive.Markup.Links;
using Archive.Markup.Templates;
using Archive.Site.Layout;
using Archive.Site.Pages;
using Archive.Storage.Output;
using Scriban;
using Xunit;

namespace Archive.Site.Tests.Templates;

/// <summary>Every page carries the policy before all that can load or run, whatever a theme writes.</summary>
public sealed class ContentSecurityPolicyTests
{
    private const string Meta = "<meta http-equiv=\"Content-Security-Policy\"";

    /// <summary>The mark ¦ is where the policy goes.</summary>
    [Theory]
    [InlineData("<!doctype html>\n<html lang=\"en\">\n<head>¦\n<meta charset=\"utf-8\">")]
    [InlineData("\n<!DOCTYPE HTML PUBLIC 'x'><HTML LANG=en dir='ltr'><HEAD>¦<script src=x>")]
    [InlineData("<!-- a note --><!doctype html><!-- <head> is next --><html><!-- here --><head class=\"a>b\">¦<title>")]
    [InlineData("<!doctype html>\n¦<script>1</script><head>")]
    [InlineData("<!doctype html>\n<html>\n¦<body><script>")]
    [InlineData("<!doctype html>\n<html>¦<header>")]
    [InlineData("<!doctype html>¦<html onclick=\"run()\"><head>")]
    [InlineData("<!doctype html>¦<html lang=en/onclick=run()><head>")]
    [InlineData("<!doctype html><html>¦<head onload=run()>")]
    [InlineData("<!doctype html>¦<!--><script>1</script>--><head>")]
    [InlineData("<!doctype html>¦<!---><script>1</script>--><head>")]
    [InlineData("<!doctype html>¦<!-- --!><script>1</script>--><head>")]
    [InlineData("<!doctype html>¦<!-- never closed <head>")]
    [InlineData("<!doctype html>¦text<head>")]
    [InlineData("<!doctype html>¦\u00A0<head>")]
    [InlineData("¦")]
    public void It_stands_before_all_that_can_load_or_run(string page)
    {
        var at = page.IndexOf('¦', StringComparison.Ordinal);
        Assert.Equal(Encoding.UTF8.GetByteCount(page[..at]), ContentSecurityPolicy.PlaceIn(Encoding.UTF8.GetBytes(page.Remove(at, 1))));
    }

    [Theory]
    [InlineData("<p>no head at all</p>")]
    [InlineData("<!doctype html><html><head><script src=\"x.js\"></script></head><body onload=\"run()\">")]
    [InlineData(
        "<!doctype html><script>run()</script><html onmouseover=\"run()\"><head><meta http-equiv=\"Content-Security-Policy\" content=\"script-src *\">")]
    public void A_theme_of_ones_own_gets_it_too(string layout)
    {
        var page = Encoding.UTF8.GetString(Render(layout, root: null).Bytes.Span);
        var first = new HtmlParser().ParseDocument(page).Head!.FirstElementChild!;
        Assert.Equal(
            ("Content-Security-Policy", ContentSecurityPolicy.OfPages), (first.GetAttribute("http-equiv"), first.GetAttribute("content")));
        Assert.Equal(layout, page.Replace("\n" + page[page.IndexOf(Meta, StringComparison.Ordinal)..(page.IndexOf(
            '>', page.IndexOf(Meta, StringComparison.Ordinal)) + 1)], "", StringComparison.Ordinal));
    }

    [Fact]
    public void The_page_for_what_is_not_there_may_run_the_script_that_adjusts_its_base_and_no_other()
    {
        var page = Encoding.UTF8.GetString(Render(
            "<!doctype html><html><head><meta charset=\"utf-8\">{{ page.head.base }}</head>",
            Href.OfHost(new Uri("https://archive.example/marrow-point/"))).Bytes.Span);
        var script = new HtmlParser().ParseDocument(page).Scripts.Single().TextContent;
        var hash = Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(script)));
        Assert.Contains($"script-src 'self' file: 'sha256-{hash}';", page, StringComparison.Ordinal);
        Assert.Contains("<base href=\"/marrow-point/\">", page, StringComparison.Ordinal);
        Assert.DoesNotContain("sha256", ContentSecurityPolicy.OfPages, StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_but_the_site_itself_is_named_and_nothing_inline_is_allowed()
    {
        foreach (var policy in new[] { ContentSecurityPolicy.OfPages, ContentSecurityPolicy.OfNotFoundPage })
        {
            Assert.StartsWith("default-src 'none'; ", policy, StringComparison.Ordinal);
            Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);
            Assert.All(policy.Split("; ").SelectMany(directive => directive.Split(' ')[1..]), source =>
                Assert.Matches("^('none'|'self'|file:|'sha256-[^']+')$", source));
        }

        Assert.EndsWith("base-uri 'none'", ContentSecurityPolicy.OfPages, StringComparison.Ordinal);
    }

    private static RenderedContent Render(string layout, Href? root)
    {
        var source = new SourceText("themes/t/templates/layout.html", layout);
        var theme = new Theme(
            "t", [new ThemeTemplate("layout", source, Template.Parse(source.Text, source.Path))], ImmutableArray<ThemeAsset>.Empty);
        var rendering = theme.RenderPage(
            new PlainPage(new PageHead("not-found", "", "", "", []) { Root = root }), new object(), root is not null);
        Assert.Empty(rendering.Faults);
        return rendering;
    }
}
