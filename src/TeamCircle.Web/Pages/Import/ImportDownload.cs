using System.IO.Compression;
using System.Text;
using Microsoft.AspNetCore.Mvc;
using TeamCircle.Core.Import;
using TeamCircle.Data.Import;

namespace TeamCircle.Web.Pages.Import;

/// <summary>Files to take along: empty ones to fill in, and refused rows to mend. No name stands in a file's name.</summary>
internal static class ImportDownload
{
    private const string Csv = "text/csv; charset=utf-8";

    /// <param name="name">One of the tables; anything else gives all of them.</param>
    public static FileContentResult Templates(string? name)
    {
        var tables = FileShape.Tables.Where(t => t.FileName == name).ToList();
        return tables is [var one]
            ? new(Bytes(one.Template), Csv) { FileDownloadName = one.FileName }
            : Zip("templates.zip", FileShape.Tables.Select(t => (t.FileName, t.Template)));
    }

    public static FileContentResult Refused(IReadOnlyList<RefusedFile> files) =>
        files is [var one]
            ? new(Bytes(one.Text), Csv) { FileDownloadName = one.Name }
            : Zip("refused.zip", files.Select(f => (f.Name, f.Text)));

    /// <summary>What came of a OneRoster set, to complete.</summary>
    public static FileContentResult ToComplete(RosterReading reading) => Zip("to-complete.zip", RosterSet.Files(reading));

    private static FileContentResult Zip(string name, IEnumerable<(string Name, string Text)> files)
    {
        using var content = new MemoryStream();
        using (var zip = new ZipArchive(content, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var file in files)
            {
                using var entry = zip.CreateEntry(file.Name).Open();
                entry.Write(Bytes(file.Text));
            }
        }
        return new(content.ToArray(), "application/zip") { FileDownloadName = name };
    }

    // With a byte-order mark, without which spreadsheets take UTF-8 for something else.
    private static byte[] Bytes(string text) => [.. Encoding.UTF8.Preamble, .. Encoding.UTF8.GetBytes(text)];
}
