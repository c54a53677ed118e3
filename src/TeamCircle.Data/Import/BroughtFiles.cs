using System.IO.Compression;
using TeamCircle.Core.Import;

namespace TeamCircle.Data.Import;

/// <summary>One file as it came.</summary>
/// <param name="Name">Without any folder.</param>
public sealed record BroughtFile(string Name, FileKind Kind, byte[] Content);

/// <summary>What came: the files we know, and the names of those we passed over.</summary>
/// <param name="Problems">Files that cannot be taken at all.</param>
public sealed record BroughtFiles(IReadOnlyList<BroughtFile> Files, IReadOnlyList<string> PassedOver, IReadOnlyList<FileProblem> Problems)
{
    /// <summary>The largest file, and the most that a zip may unfold to, in bytes.</summary>
    public const int MostBytes = 100 * 1024 * 1024;
    private const int MostFiles = 200;

    /// <summary>Whether files of a OneRoster set are among them: nothing of those is stored before somebody has completed it.</summary>
    public bool IsRoster => Files.Any(f => FileShape.IsRoster(f.Kind));

    /// <summary>Reads a folder, a zip, or a single file.</summary>
    /// <exception cref="IOException">It cannot be read.</exception>
    public static BroughtFiles FromPath(string path)
    {
        if (!Directory.Exists(path))
            return From([(Path.GetFileName(path), () => File.OpenRead(path))]);
        var files = Directory.EnumerateFiles(path).Order(StringComparer.Ordinal);
        return From(files.Select(f => (Path.GetFileName(f), (Func<Stream>)(() => File.OpenRead(f)))), byExactName: true);
    }

    /// <summary>Takes files by name; a zip among them is unfolded.</summary>
    /// <param name="byExactName">In a folder only the exact names count; a file that somebody picked may be called <c>visits-october.csv</c>.</param>
    public static BroughtFiles From(IEnumerable<(string Name, Func<Stream> Open)> files, bool byExactName = false)
    {
        var gathered = new Gathered();
        foreach (var (name, open) in files)
        {
            using var stream = open();
            if (name.EndsWith(".zip", StringComparison.OrdinalIgnoreCase) && !byExactName)
                gathered.Unfold(name, stream);
            else
                gathered.Take(name, byExactName ? FileShape.ByName(name) : FileShape.ByBeginning(name), stream);
        }
        return new(gathered.Files, gathered.PassedOver, gathered.Problems);
    }

    private sealed class Gathered
    {
        private long _left = MostBytes;

        public List<BroughtFile> Files { get; } = [];
        public List<string> PassedOver { get; } = [];
        public List<FileProblem> Problems { get; } = [];

        public void Take(string name, FileKind? kind, Stream stream)
        {
            if (kind is null)
                PassedOver.Add(name);
            else if (kind != FileKind.Visits && Files.Exists(f => f.Kind == kind))
                Problems.Add(new(name, 1, "", $"There are two files of this kind: {Files.Find(f => f.Kind == kind)!.Name} is the other."));
            else if (Read(stream) is { } content)
                Files.Add(new(name, kind.Value, content));
            else
                Problems.Add(new(name, 1, "", "This is more than 100 megabytes in all. Bring it in parts."));
        }

        public void Unfold(string zipName, Stream stream)
        {
            try
            {
                using var zip = new ZipArchive(stream, ZipArchiveMode.Read);
                var entries = zip.Entries.Where(e => e.Name.Length > 0 && !e.FullName.StartsWith("__MACOSX/", StringComparison.Ordinal)).ToList();
                if (entries.Count > MostFiles)
                    Problems.Add(new(zipName, 1, "", "This zip holds more than 200 files."));
                else if (entries.Find(e => !IsPlain(e.FullName)) is not null)
                    Problems.Add(new(zipName, 1, "", "This zip holds a file outside its own folder. Zip the folder again with plain file names."));
                else
                    Unfold(entries);
            }
            catch (InvalidDataException)
            {
                Problems.Add(new(zipName, 1, "", "This is not a zip file, or it is damaged."));
            }
        }

        private void Unfold(List<ZipArchiveEntry> entries)
        {
            foreach (var entry in entries)
            {
                using var content = entry.Open();
                Take(entry.Name, FileShape.ByName(entry.Name), content);
            }
        }

        /// <summary>A file name, or one in a single folder.</summary>
        private static bool IsPlain(string fullName)
        {
            var parts = fullName.Split('/');
            return parts.Length <= 2 && !fullName.Contains('\\', StringComparison.Ordinal) && !fullName.Contains(':', StringComparison.Ordinal)
                && Array.TrueForAll(parts, p => p is not ("" or "." or ".."));
        }

        /// <summary>Counts what really comes out: what a zip says about its own sizes is not trusted.</summary>
        private byte[]? Read(Stream stream)
        {
            using var content = new MemoryStream();
            var buffer = new byte[81920];
            for (int read; (read = stream.Read(buffer)) > 0;)
            {
                _left -= read;
                if (_left < 0)
                    return null;
                content.Write(buffer, 0, read);
            }
            return content.ToArray();
        }
    }
}
