namespace Archive.Diagnostics.Descriptors;

/// <content>Labels read in photos.</content>
public static partial class DiagnosticDescriptors
{
    /// <summary>label in a photo that contradicts the record.</summary>
    public static readonly DiagnosticDescriptor PhotographedLabelContradicts =
        Warning("AF1701", "label in a photo that contradicts the record");
}
