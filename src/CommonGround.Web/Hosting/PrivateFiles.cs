using System.Runtime.InteropServices;

namespace CommonGround.Web.Hosting;

/// <summary>Whatever the program writes is for its own user alone, from the first byte: files 0600, folders 0700. On Windows a folder's own
/// rights decide.</summary>
internal static partial class PrivateFiles
{
    private const int NobodyElse = 0b000_111_111;

    public static void Begin()
    {
        if (!OperatingSystem.IsWindows())
        {
            _ = Umask(NobodyElse);
        }
    }

    // umask(2) has no counterpart in the framework; it always succeeds.
    [DllImport("libc", EntryPoint = "umask")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int Umask(int mask);
}
