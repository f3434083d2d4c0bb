using Archive.Documents.Transcripts;
using Xunit;

namespace Archive.Documents.Tests;

public class WebVttTests
{
    /// <summary>The first example of the W3C's WebVTT (section 1.1), shortened; with a name, a note, marks and an entity.</summary>
    [Fact]
    public void Times_speakers_and_text_are_read()
    {
        const string File =
            "\uFEFFWEBVTT\n\nNOTE made by hand\nover two lines\n\n00:11.000 --> 00:13.000 align:start\n<v Roger Bingham>We are in <i>New York</i> City &amp; more\n\n"
            + "second\n01:00:13.250 --> 01:00:16.000\r\nWe're actually at the Lucern Hotel,\r\njust down the street\n";
        Assert.True(WebVtt.TryRead(File, out var cues, out _));
        Assert.Equal(
            [
                new Cue(TimeSpan.FromSeconds(11), TimeSpan.FromSeconds(13), "Roger Bingham", "We are in New York City & more"),
                new Cue(
                    TimeSpan.FromSeconds(3613.25),
                    TimeSpan.FromSeconds(3616),
                    "",
                    "We're actually at the Lucern Hotel, just down the street"),
            ],
            cues);
    }

    [Theory]
    [InlineData("00:01.000 --> 00:02.000\nA", 0)]
    [InlineData("WEBVTTX\n", 0)]
    [InlineData("WEBVTT\n\n00:01,000 --> 00:02,000\nA", 2)]
    [InlineData("WEBVTT\n\n00:61.000 --> 01:02.000\nA", 2)]
    [InlineData("WEBVTT\n\n00:03.000 --> 00:02.000\nA", 2)]
    [InlineData("WEBVTT\n\n00:03.000 --> 00:04.000\nA\n\nname\n00:01.000 --> 00:02.000\nB", 6)]
    public void What_is_wrong_has_its_line(string file, int line)
    {
        Assert.False(WebVtt.TryRead(file, out var cues, out var error));
        Assert.Empty(cues);
        Assert.Equal(line, error!.Value.Line);
    }
}
