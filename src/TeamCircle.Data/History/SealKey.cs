using System.Runtime.InteropServices;
using System.Security.Cryptography;

namespace TeamCircle.Data.History;

/// <summary>The key under which blocks of changes are sealed: a file of its own, kept outside the database and its backups.</summary>
/// <remarks>Whoever has the owner's rights in the database but not this file can't alter the trail without it showing.</remarks>
/// <param name="path">Absolute; 64 hexadecimal digits in a file that its owner alone may read.</param>
public sealed class SealKey(string path)
{
    private const int Bytes = 32;

    public string Path => path;

    /// <exception cref="StartupFailure">There is no such file, or it can't be read, or holds something else.</exception>
    public byte[] Read()
    {
        try
        {
            var key = Convert.FromHexString(File.ReadAllText(path).Trim());
            return key.Length == Bytes ? key : throw new FormatException();
        }
        catch (FormatException cause)
        {
            throw new StartupFailure($"{path} holds no key of 64 hexadecimal digits: put back the file that sealed the changes so far.", cause);
        }
        catch (Exception cause) when (cause is IOException or UnauthorizedAccessException)
        {
            throw new StartupFailure($"The key in {path} can't be read: put back the file that sealed the changes so far, or set TEAMCIRCLE_SEAL_KEY to where it is.", cause);
        }
    }

    /// <summary>Makes the key where there is none yet; two processes that do so at once end with the same one.</summary>
    /// <exception cref="StartupFailure">It can't be written or read.</exception>
    public byte[] ReadOrMake()
    {
        if (!File.Exists(path))
            Make();
        return Read();
    }

    private void Make()
    {
        var unfinished = $"{path}.{Environment.ProcessId}.{RandomNumberGenerator.GetHexString(8)}";
        try
        {
            Directory.CreateDirectory(System.IO.Path.GetDirectoryName(path)!);
            var only = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
            if (!OperatingSystem.IsWindows())
                only.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
            using (var file = new FileStream(unfinished, only))
            {
                file.Write(System.Text.Encoding.ASCII.GetBytes(RandomNumberGenerator.GetHexString(2 * Bytes, lowercase: true) + "\n"));
                file.Flush(flushToDisk: true);
            }
            GiveName(unfinished);
        }
        catch (IOException) when (File.Exists(path))
        {
            File.Delete(unfinished); // another process was first
        }
        catch (Exception cause) when (cause is IOException or UnauthorizedAccessException)
        {
            throw new StartupFailure($"The key that seals changes can't be written to {path}: open its folder to {Environment.UserName}, or set TEAMCIRCLE_SEAL_KEY to another file.", cause);
        }
    }

    /// <summary>Gives the finished file its name, unless one has it. File.Move looks first and renames then, so that of two processes the
    /// second one could take the place of the first one's key; a second name for a file is given or refused in one step.</summary>
    private void GiveName(string unfinished)
    {
        const int NotPermitted = 1; // what a file system without such names answers
        if (OperatingSystem.IsWindows())
            File.Move(unfinished, path, overwrite: false);
        else if (link(unfinished, path) == 0)
            File.Delete(unfinished);
        else if (Marshal.GetLastPInvokeError() == NotPermitted)
            File.Move(unfinished, path, overwrite: false);
        else
            throw new IOException($"{unfinished} can't be named {path}: error {Marshal.GetLastPInvokeError()}.");
    }

    // POSIX.1-2017, link: fails where the new name exists.
    [DllImport("libc", SetLastError = true, BestFitMapping = false, ThrowOnUnmappableChar = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int link([MarshalAs(UnmanagedType.LPUTF8Str)] string existing, [MarshalAs(UnmanagedType.LPUTF8Str)] string name);
}
