namespace Archive.Diagnostics.Descriptors;

/// <content>Photos.</content>
public static partial class DiagnosticDescriptors
{
    /// <summary>photo file is missing.</summary>
    public static readonly DiagnosticDescriptor MissingPhoto = Error("AF0701", "photo file is missing");

    /// <summary>photo cannot be read.</summary>
    public static readonly DiagnosticDescriptor UnreadablePhoto = Error("AF0702", "photo cannot be read");

    /// <summary>photo does not match its checksum.</summary>
    public static readonly DiagnosticDescriptor PhotoChecksum = Error("AF0703", "photo does not match its checksum");

    /// <summary>photo has too many pixels.</summary>
    public static readonly DiagnosticDescriptor PhotoTooLarge = Error("AF0704", "photo has too many pixels");

    /// <summary>not a SHA-256 checksum.</summary>
    public static readonly DiagnosticDescriptor BadChecksum = Error("AF0705", "not a SHA-256 checksum");

    /// <summary>two records name the same photo file.</summary>
    public static readonly DiagnosticDescriptor PhotoTakenByTwo = Warning("AF0706", "two records name the same photo file");

    /// <summary>watermark cannot be drawn.</summary>
    public static readonly DiagnosticDescriptor WatermarkUnfit = Warning("AF0707", "watermark cannot be drawn");

    /// <summary>original that would show what is hidden.</summary>
    public static readonly DiagnosticDescriptor OriginalWithHiddenParts = Warning("AF0708", "original that would show what is hidden");

    /// <summary>a copy shows what another record hides.</summary>
    public static readonly DiagnosticDescriptor CopyOfHidden = Error("AF0709", "a copy shows what another record hides");

    /// <summary>photo looks like one with hidden parts.</summary>
    public static readonly DiagnosticDescriptor LooksLikeHidden = Warning("AF0710", "photo looks like one with hidden parts");

    /// <summary>original is published with camera metadata.</summary>
    public static readonly DiagnosticDescriptor OriginalWithNotes = Warning("AF0711", "original is published with camera metadata");

    /// <summary>original cannot be stripped of its metadata.</summary>
    public static readonly DiagnosticDescriptor NotStripped = Error("AF0712", "original cannot be stripped of its metadata");

    /// <summary>only the first of several pictures is shown.</summary>
    public static readonly DiagnosticDescriptor FirstPictureOnly = Note("AF0713", "only the first of several pictures is shown");

    /// <summary>photo cannot be processed.</summary>
    public static readonly DiagnosticDescriptor PhotoNotProcessed = Error("AF0714", "photo cannot be processed");

    /// <summary>site holds an original that is withheld.</summary>
    public static readonly DiagnosticDescriptor WithheldInSite = Error("AF0715", "site holds an original that is withheld");
}
