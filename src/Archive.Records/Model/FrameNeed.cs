namespace Archive.Records.Model;

/// <summary>One frame.</summary>
public sealed record FrameNeed(Stated<string> Frame) : Need(Frame.Span);
