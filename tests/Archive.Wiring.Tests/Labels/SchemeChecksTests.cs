using Xunit;

namespace Archive.Wiring.Tests.Labels;

public sealed class SchemeChecksTests
{
    [Fact]
    public void A_scheme_that_holds_has_no_faults() =>
        Assert.Empty(Written.Record.With("schemes/a.yaml", Written.JacketPrint).With("schemes/b.yaml", Written.Tag).SchemeFaults());

    [Theory]
    [InlineData(@"^(?<a>\d\d)-(?<b>\d+$", "AF0801", "(", "this `(` is never closed")]
    [InlineData("a**", "AF0801", "*", "the pattern cannot be compiled: nested quantifier '*'")]
    [InlineData(@"\p{Foo}", "AF0801", "}", "the pattern cannot be compiled: unknown property 'Foo'")]
    [InlineData("^(?=.)(?<a>.)$", "AF0801", "(?=", "the pattern looks ahead, which cannot be matched in linear time")]
    [InlineData("^(?<!x)(?<a>.)$", "AF0801", "(?<!", "the pattern looks behind, which cannot be matched in linear time")]
    [InlineData(@"^(?<a>.)\k<a>$", "AF0801", @"\k", "the pattern refers back to a group, which cannot be matched in linear time")]
    [InlineData(
        @"^(a{1000}){1000}$",
        "AF0810",
        "'^(a{1000}){1000}$'",
        "the pattern describes more than 400 characters, with repetitions such as `{9}` written out")]
    public void A_pattern_that_cannot_be_matched_is_told_at_its_place(string reads, string code, string part, string message)
    {
        var diagnostic = Assert.Single(Written.Record.With("schemes/a.yaml", $"id: a\nname: a\nreads: '{reads}'\nmeans: [R1-03]\n")
            .SchemeFaults());
        Assert.Equal((code, part, message), (diagnostic.Code, diagnostic.Span.Text, diagnostic.Message));
        Assert.Equal("schemes/a.yaml", diagnostic.Span.Path);
    }

    [Theory]
    [InlineData("'{rwo}-{frame}'", "AF0802", "rwo", "the pattern captures nothing named `rwo`", "did you mean `row`?")]
    [InlineData("'{row}-{shelf}'", "AF0802", "shelf", "the pattern captures nothing named `shelf`", "the pattern captures `row`, `frame`")]
    [InlineData("'{row}-{frame'", "AF0802", "{", "`{` without its partner", "write names from the pattern as `{name}`")]
    [InlineData("'row}-{frame}'", "AF0802", "}", "`}` without its partner", "write names from the pattern as `{name}`")]
    public void A_meaning_names_what_the_pattern_captures(string means, string code, string part, string message, string help)
    {
        var diagnostic = Assert.Single(Scheme($"means: [{means}]").SchemeFaults());
        Assert.Equal((code, part, message, help), (diagnostic.Code, diagnostic.Span.Text, diagnostic.Message, diagnostic.Help));
    }

    [Fact]
    public void A_table_serves_a_group()
    {
        var diagnostic = Assert.Single(Scheme("means: ['{row}-{frame}']\ntables: {rwo: {\"02\": R2}}").SchemeFaults());
        Assert.Equal(("AF0802", "rwo", "did you mean `row`?"), (diagnostic.Code, diagnostic.Span.Text, diagnostic.Help));
    }

    [Theory]
    [InlineData("205: [R2-05]", "AF0803", "205", "the scheme does not match its example `205`")]
    [InlineData("\"0205\": [R2-06]", "AF0804", "R2-06", "`0205` reads as `R2-05` here, not `R2-06`")]
    [InlineData("\"0205\": [R2-05, R1-03]", "AF0804", "\"0205\"", "`0205` reads as `R2-05`, and 2 addresses are stated")]
    [InlineData("\"0705\": [R7-05]", "AF0805", "07", "the example cannot be read: table `row` has no entry for `07`")]
    [InlineData(
        "\"0305\": [R7-05]", "AF0804", "\"0305\"", "the example reads differently: it would mean `R 3-05`, which is not an address")]
    public void An_example_reads_as_it_states(string example, string code, string part, string message)
    {
        var diagnostic = Assert.Single(
            Scheme($"means: ['{{row}}-{{frame}}']\ntables: {{row: {{\"02\": R2, \"03\": R 3}}}}\nexamples: {{{example}}}").SchemeFaults());
        Assert.Equal((code, part, message), (diagnostic.Code, diagnostic.Span.Text, diagnostic.Message));
    }

    [Fact]
    public void Leading_zeros_of_an_example_do_not_matter() =>
        Assert.Empty(Scheme("means: ['R{row}-{frame}']\nexamples: {\"0205\": [R2-5]}").SchemeFaults());

    [Theory]
    [InlineData("B", "B", "`B` is a single character")]
    [InlineData("B8B", "B", "character `B` is listed twice")]
    [InlineData("'B 8'", " ", "a space among the characters")]
    [InlineData("'𝟘'", "'𝟘'", "`𝟘` is a single character")]
    public void A_confusion_is_a_set_of_glyphs(string confusion, string part, string message)
    {
        var diagnostic = Assert.Single(Scheme($"means: ['{{row}}-{{frame}}']\nconfusions: [O0, {confusion}]").SchemeFaults());
        Assert.Equal(("AF0807", part, message), (diagnostic.Code, diagnostic.Span.Text, diagnostic.Message));
    }

    [Fact]
    public void What_is_withdrawn_is_not_judged() =>
        Assert.Empty(Written.Record.With("schemes/a.yaml", "{id: a, withdrawn: misunderstood, reads: '(', means: ['{x}']}").SchemeFaults());

    private static Written Scheme(string more) =>
        Written.Record.With("schemes/a.yaml", $"id: a\nname: a\nreads: '^(?<row>\\d\\d)(?<frame>\\d\\d)$'\n{more}\n");
}
