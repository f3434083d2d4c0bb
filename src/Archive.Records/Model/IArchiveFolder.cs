using System.Collections.Immutable;
using Archive.Diagnostics;

namespace Archive.Records.Model;

/// <summary>The archive's folder as the readers see it: paths are relative, separated by <c>/</c>, and never leave it.</summary>
public interface IArchiveFolder
{
    /// <summary>
    /// All files below the folder, ordinal order; names that begin with a dot, and what lies in such folders, are passed over.
    /// </summary>
    ImmutableArray<string> Files { get; }

    /// <summary>
    /// What is wrong with entries of the folder that can be no file of it, and are not among <see cref="Files"/>; by path.
    /// </summary>
    ImmutableArray<Diagnostic> Unusable => [];

    /// <summary>Reads a file whole.</summary>
    /// <param name="path">A path of <see cref="Files"/>.</param>
    /// <param name="limit">Most bytes that are read.</param>
    /// <returns>Its bytes; or null with a plain reason where it cannot be read; or twice null where it is larger than the limit.</returns>
    (byte[]? Bytes, string? Why) Read(string path, long limit);

    /// <summary>Where a path, written in a file, leads.</summary>
    /// <param name="fromFile">Path of the file that names it.</param>
    /// <param name="written">The path as written, relative to that file.</param>
    /// <returns>What became of it.</returns>
    PathResult Follow(string fromFile, string written);

    /// <summary>Full path on the disk, for the rooms that stream; null for a folder that is not on a disk.</summary>
    /// <param name="path">A path within the archive.</param>
    string? FullPath(string path);
}

/// <summary>Where a written path leads.</summary>
/// <param name="Outcome">What became of it.</param>
/// <param name="Path">The path within the archive, unless it leaves it.</param>
public readonly record struct PathResult(PathStatus Outcome, string? Path);

/// <summary>What can become of a written path.</summary>
public enum PathStatus
{
    /// <summary>It names a file of the archive.</summary>
    Exists,

    /// <summary>It stays within the archive, but there is no such file.</summary>
    Missing,

    /// <summary>It leaves the archive: by <c>..</c>, as an absolute path, or through a symbolic link.</summary>
    Leaves,
}
