using System.Buffers.Binary;
using System.Runtime.InteropServices;

namespace Archive.Records.Reading;

/// <summary>
/// Files that are not files: to open a named pipe is to wait for anyone who writes to it, to read a device may have no end.
/// </summary>
public static partial class SpecialFile
{
    // statx(2) and inode(7) of Linux; the structure is the same on every processor.
    private const int CurrentFolder = -100, WithType = 1, StructureSize = 256, ModeAt = 28;
    private const int TypeMask = 0xF000, Pipe = 0x1000, CharacterDevice = 0x2000, BlockDevice = 0x6000, Socket = 0xC000;

    /// <summary>What a path names if that is no regular file, folder or link; links are followed.</summary>
    /// <returns>Such as <c>a named pipe</c>; null for files and folders, for what cannot be looked at, and on systems other than
    /// Linux.</returns>
    public static string? KindOf(string fullPath)
    {
        if (!OperatingSystem.IsLinux()) return null;
        var structure = new byte[StructureSize];
        try
        {
            if (Statx(CurrentFolder, fullPath, 0, WithType, ref structure[0]) != 0) return null;
        }
        catch (EntryPointNotFoundException)
        {
            return null;
        }

        return (BinaryPrimitives.ReadUInt16LittleEndian(structure.AsSpan(ModeAt)) & TypeMask) switch
        {
            Pipe => "a named pipe",
            CharacterDevice or BlockDevice => "a device",
            Socket => "a socket",
            _ => null,
        };
    }

    [LibraryImport("libc", EntryPoint = "statx", StringMarshalling = StringMarshalling.Utf8)]
    private static partial int Statx(int folder, string path, int flags, uint mask, ref byte structure);
}
