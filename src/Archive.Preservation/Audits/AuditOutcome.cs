using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;

namespace Archive.Preservation.Audits;

/// <summary>What was audited.</summary>
public enum AuditSubject
{
    /// <summary>A bag (RFC 8493 or what went before it).</summary>
    Bag,

    /// <summary>A published site with its <c>site.sha256</c>.</summary>
    Site,

    /// <summary>An archive's folder: its photos against their recorded checksums.</summary>
    Archive,
}

/// <summary>What came of an audit.</summary>
/// <param name="Subject">What was audited.</param>
/// <param name="Name">What it is in a few words, such as <c>bag of BagIt 1.0</c>.</param>
/// <param name="Diagnostics">What is wrong, in <see cref="Diagnostic.Order"/>.</param>
public sealed record AuditOutcome(AuditSubject Subject, string Name, ImmutableArray<Diagnostic> Diagnostics)
{
    /// <summary>Files that were compared with a checksum.</summary>
    public int Files { get; init; }

    /// <summary>Bytes that were read for it.</summary>
    public long Bytes { get; init; }

    /// <summary>Names of the checksums, such as <c>sha512</c>.</summary>
    public ImmutableArray<string> Algorithms { get; init; } = [];

    /// <summary>
    /// Whether everything is there that must be, and nothing else, in the right form. The size that a bag states of its payload is no part
    /// of that (RFC 8493, 3): of files lost or added their names tell.
    /// </summary>
    public bool IsComplete => !Diagnostics.Any(diagnostic => diagnostic.Severity == Severity.Error
        && diagnostic.Descriptor != DiagnosticDescriptors.FileDiffers
        && diagnostic.Descriptor != DiagnosticDescriptors.PhotoChecksum
        && diagnostic.Descriptor != DiagnosticDescriptors.PayloadSize);

    /// <summary>Whether it is complete and every checksum is right.</summary>
    public bool IsValid => !Diagnostics.Any(diagnostic => diagnostic.Severity == Severity.Error);
}
