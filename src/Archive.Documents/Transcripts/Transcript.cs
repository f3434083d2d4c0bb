using System.Collections.Immutable;

namespace Archive.Documents.Transcripts;

/// <summary>What is said or written in a file.</summary>
/// <param name="Cues">Its parts with their times; none where it has no times.</param>
/// <param name="Prose">Markdown or plain text; empty where it has times.</param>
/// <param name="IsMarkdown">Whether <paramref name="Prose"/> is Markdown.</param>
public sealed record Transcript(ImmutableArray<Cue> Cues, string Prose, bool IsMarkdown)
{
    /// <summary>All of it as text, for the search.</summary>
    public string Text => Cues.IsEmpty ? Prose : string.Join('\n', Cues.Select(cue => cue.Text));
}

/// <summary>What is said from one time to another.</summary>
/// <param name="Start">From the beginning of the recording.</param>
/// <param name="End">Not before <paramref name="Start"/>.</param>
/// <param name="Speaker">Who speaks; empty where that is not said.</param>
/// <param name="Text">What is said, on one line.</param>
public sealed record Cue(TimeSpan Start, TimeSpan End, string Speaker, string Text);
