using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;

namespace TeamCircle.Testing.Faults;

/// <summary>
/// A file system of a test's own whose power can be cut and whose room can run out. It is a real one of the kernel: ext4 in a file, or tmpfs. Only root may mount it,
/// on Linux.
/// </summary>
/// <remarks>
/// The cut is ext4's own, made for testing file systems (EXT4_IOC_SHUTDOWN with EXT4_GOING_FLAGS_NOLOGFLUSH, fs/ext4/ioctl.c): from that moment nothing reaches
/// the disk any more, neither data nor journal, and every write and flush fails. What programs had written and not flushed lies in the kernel's memory alone,
/// and is gone when it is mounted again.
/// </remarks>
public sealed class BreakableDisk : IAsyncDisposable
{
    private const uint Shutdown = 0x8004587d, WithoutFlushingTheLog = 2; // _IOR('X', 125, __u32)
    private readonly string _folder;
    private readonly string[] _mount;

    private BreakableDisk(string folder, string[] mount) => (_folder, _mount) = (folder, mount);

    /// <summary>Why there can be none here; null where there can.</summary>
    public static string? WhyNot => OperatingSystem.IsLinux() && Environment.IsPrivilegedProcess ? null : "Only root can mount a file system of its own, and only on Linux.";

    /// <summary>Where it is mounted.</summary>
    public string Root => Path.Combine(_folder, "disk");

    private string Ballast => Path.Combine(Root, "ballast");

    /// <summary>One whose power can be cut.</summary>
    public static async Task<BreakableDisk> Ext4Async(string folder, int megabytes)
    {
        var image = Path.Combine(Directory.CreateDirectory(folder).FullName, "image");
        await RunAsync("truncate", "-s", string.Create(CultureInfo.InvariantCulture, $"{megabytes}M"), image);
        await RunAsync("mkfs.ext4", "-q", image);
        return await MountAsync(new(folder, ["-o", "loop", image]));
    }

    /// <summary>One whose room can run out.</summary>
    public static Task<BreakableDisk> InMemoryAsync(string folder, int megabytes) =>
        MountAsync(new(folder, ["-t", "tmpfs", "-o", string.Create(CultureInfo.InvariantCulture, $"size={megabytes}m,mode=755"), "tmpfs"]));

    /// <summary>Brings all that was written so far to the disk.</summary>
    public Task FlushAsync() => RunAsync("sync", "-f", Root);

    public void CutPower()
    {
        using var root = OpenFolder(Root);
        var flags = WithoutFlushingTheLog;
        if (ioctl(root, Shutdown, ref flags) != 0)
            throw new InvalidOperationException($"The power can't be cut: error {Marshal.GetLastPInvokeError()}.");
    }

    /// <summary>Power is back. Nobody may have a file open there.</summary>
    public async Task MountAgainAsync()
    {
        await RunAsync("umount", Root);
        await MountAsync(this);
    }

    /// <summary>Takes up all room that is left.</summary>
    public void Fill()
    {
        var chunk = new byte[64 * 1024];
        using var file = new FileStream(Ballast, FileMode.Append, FileAccess.Write, FileShare.None, bufferSize: 0);
        try
        {
            while (true)
                file.Write(chunk);
        }
        catch (IOException) // there is none left
        {
        }
    }

    public void Free() => File.Delete(Ballast);

    public async ValueTask DisposeAsync()
    {
        await RunAsync("umount", "-l", Root);
        Directory.Delete(_folder, recursive: true);
    }

    private static async Task<BreakableDisk> MountAsync(BreakableDisk disk)
    {
        Directory.CreateDirectory(disk.Root);
        await RunAsync("mount", [.. disk._mount, disk.Root]);
        return disk;
    }

    private static SafeFolderHandle OpenFolder(string path)
    {
        const int readOnly = 0;
        var folder = open(path, readOnly);
        return folder.IsInvalid ? throw new IOException($"{path} can't be opened.") : folder;
    }

    private static async Task RunAsync(string program, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardError = true })!;
        var said = await process.StandardError.ReadToEndAsync();
        await process.WaitForExitAsync();
        if (process.ExitCode != 0)
            throw new InvalidOperationException($"{program} {string.Join(' ', arguments)}: {said}");
    }

    // POSIX.1-2017, open and close; Linux, ioctl(2).
    [DllImport("libc", SetLastError = true, BestFitMapping = false, ThrowOnUnmappableChar = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern SafeFolderHandle open([MarshalAs(UnmanagedType.LPUTF8Str)] string path, int flags);

    [DllImport("libc", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int ioctl(SafeFolderHandle folder, nuint request, ref uint flags);

    [DllImport("libc", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int close(nint folder);

    private sealed class SafeFolderHandle() : Microsoft.Win32.SafeHandles.SafeHandleMinusOneIsInvalid(ownsHandle: true)
    {
        protected override bool ReleaseHandle() => close(handle) == 0;
    }
}
