using System.ComponentModel;
using System.Runtime.InteropServices;

namespace Archive.Storage;

/// <summary>What the runtime does not offer: two folders that change places in one step, and a second name for a file.</summary>
public static partial class NativeFolder
{
    private const int CurrentFolder = -100; // AT_FDCWD
    private const uint Exchange = 2; // RENAME_EXCHANGE of Linux's renameat2(2), RENAME_SWAP of macOS's renamex_np(2): both 2

    // errno values that say "not here", by number: EINVAL; ENOSYS and EOPNOTSUPP of Linux; ENOTSUP of macOS.
    private static readonly int[] NotSupported = [22, 38, 95, 45];

    /// <summary>Lets two folders change places in one step.</summary>
    /// <param name="one">One folder.</param>
    /// <param name="other">The other, on the same file system.</param>
    /// <returns>False where this system or file system cannot do it.</returns>
    /// <exception cref="IOException">It can, but was refused.</exception>
    public static bool TryExchange(string one, string other)
    {
        try
        {
            var result = OperatingSystem.IsLinux() ? RenameAt2(CurrentFolder, one, CurrentFolder, other, Exchange)
                : OperatingSystem.IsMacOS() ? RenameX(one, other, Exchange)
                : 1;
            if (result == 0) return true;
            if (result == 1) return false;
        }
        catch (EntryPointNotFoundException)
        {
            return false;
        }

        var error = Marshal.GetLastPInvokeError();
        return NotSupported.Contains(error)
            ? false
            : throw new IOException(
                $"the new site cannot take the place of {other}: {Marshal.GetPInvokeErrorMessage(error)}", new Win32Exception(error));
    }

    /// <summary>Gives a file a second name.</summary>
    /// <param name="name">Its new name, on the same file system.</param>
    /// <returns>False where the file system cannot do it.</returns>
    public static bool TryLink(string existing, string name) =>
        OperatingSystem.IsWindows() ? CreateHardLink(name, existing, 0) : Link(existing, name) == 0;

    [LibraryImport("libc", EntryPoint = "renameat2", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    private static partial int RenameAt2(int oldFolder, string oldPath, int newFolder, string newPath, uint flags);

    [LibraryImport("libc", EntryPoint = "renamex_np", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    private static partial int RenameX(string from, string to, uint flags);

    [LibraryImport("libc", EntryPoint = "link", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    private static partial int Link(string existing, string name);

    [LibraryImport("kernel32", EntryPoint = "CreateHardLinkW", SetLastError = true, StringMarshalling = StringMarshalling.Utf16)]
    [return: MarshalAs(UnmanagedType.Bool)]
    private static partial bool CreateHardLink(string name, string existing, nint security);
}
