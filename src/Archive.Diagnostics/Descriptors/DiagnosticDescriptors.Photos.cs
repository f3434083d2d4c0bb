namespace Archive.Diagnostics.Descriptors;

/// <content>Photos.</content>
public static partial class DiagnosticDescriptors
{
    public static readonly DiagnosticDescriptor MissingPhoto = Error("AF0701", "photo file is missing");

    public static readonly DiagnosticDescriptor UnreadablePhoto = Error("AF0702", "photo cannot be read");

    public static readonly DiagnosticDescriptor PhotoChecksum = Error("AF0703", "photo does not match its checksum");

    public static readonly DiagnosticDescriptor PhotoTooLarge = Error("AF0704", "photo has too many pixels");

    public static readonly DiagnosticDescriptor BadChecksum = Error("AF0705", "not a SHA-256 checksum");

    public static readonly DiagnosticDescriptor PhotoTakenByTwo = Warning("AF0706", "two records name the same photo file");

    public static readonly DiagnosticDescriptor WatermarkUnfit = Warning("AF0707", "watermark cannot be drawn");

    public static readonly DiagnosticDescriptor OriginalWithHiddenParts = Warning("AF0708", "original that would show what is hidden");

    public static readonly DiagnosticDescriptor CopyOfHidden = Error("AF0709", "a copy shows what another record hides");

    public static readonly DiagnosticDescriptor LooksLikeHidden = Warning("AF0710", "photo looks like one with hidden parts");

    public static readonly DiagnosticDescriptor OriginalWithNotes = Warning("AF0711", "original is published with camera metadata");

    public static readonly DiagnosticDescriptor NotStripped = Error("AF0712", "original cannot be stripped of its metadata");

    public static readonly DiagnosticDescriptor FirstPictureOnly = Note("AF0713", "only the first of several pictures is shown");

    public static readonly DiagnosticDescriptor PhotoNotProcessed = Error("AF0714", "photo cannot be processed");

    public static readonly DiagnosticDescriptor WithheldInSite = Error("AF0715", "site holds an original that is withheld");

    public static readonly DiagnosticDescriptor PhotoWithoutRecord = Warning("AF0716", "picture that no record names");
}
