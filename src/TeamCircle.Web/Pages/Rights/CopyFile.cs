using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Mvc;
using TeamCircle.Core.Import;
using TeamCircle.Data.Import;
using TeamCircle.Data.Rights;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Rights;

/// <summary>A copy of a whole record as one archive: a page to read and print, a table for each kind of entry, the pictures. No name stands in a file's name.</summary>
/// <param name="copy">What is in it.</param>
/// <param name="whom">Who asked for it.</param>
public sealed class CopyFile(RecordCopy copy, string whom) : ActionResult
{
    private static readonly Dictionary<string, string> Titles = new()
    {
        ["sessions"] = "Visits as they were logged",
        ["visits"] = "Visits as they were planned",
        ["series"] = "Visits that repeat",
        ["trials"] = "Trials of practices",
        ["teach parts"] = "How we teach",
        ["relations"] = "Who works with the learner, and seats of the family",
        ["debts"] = "Brought forward",
        ["things"] = "Things that were promised",
        ["deliveries"] = "What went to the family",
        ["meetings"] = "Packs for meetings",
        ["statements"] = "Statements of closed counts",
        ["sealed lines"] = "Lines of closed counts",
        ["open hours"] = "Hours in which visits may be",
        ["aways"] = "Time away",
    };

    private static readonly string[] LeftOut =
    [
        "Other children: of a group visit, only this child's own line is here.",
        "Who has opened or changed the record: that is printed from the page Record of access.",
        "Numbers that only join tables, versions and hashes of the machinery, and what holds for the whole agency: calendar, policy, places.",
        "What was destroyed under a rule or at the family's request: the page Keeping and destroying says what, and when.",
        "Notes that a person keeps for themselves and shows to nobody are no part of the record (34 CFR 99.3), and the portal keeps none.",
    ];

    public override Task ExecuteResultAsync(ActionContext context)
    {
        using var content = new MemoryStream();
        using (var archive = new ZipArchive(content, ZipArchiveMode.Create, leaveOpen: true))
            Write(archive);
        return new FileContentResult(content.ToArray(), "application/zip") { FileDownloadName = "record.zip" }.ExecuteResultAsync(context);
    }

    private void Write(ZipArchive archive)
    {
        using (var page = new StreamWriter(archive.CreateEntry("read-me-first.html").Open(), new UTF8Encoding(false)))
            WritePage(page);
        foreach (var sheet in copy.Sheets)
        {
            // With a byte-order mark, without which spreadsheets take UTF-8 for something else.
            using var text = new StreamWriter(archive.CreateEntry($"tables/{sheet.Table.Replace('_', '-')}.csv").Open(), new UTF8Encoding(true));
            CsvSheet.Write(text, sheet.Heads, sheet.Rows.Select(row => row.Select(cell => (object?)SpreadsheetCell.Safe(cell))));
        }
        foreach (var (picture, number) in copy.Pictures.Select((p, i) => (p, i + 1)))
        {
            using var file = archive.CreateEntry(string.Create(CultureInfo.InvariantCulture, $"pictures/{number:00}.jpg")).Open();
            file.Write(picture);
        }
    }

    private void WritePage(TextWriter page)
    {
        page.Write("<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Record</title><style>body{font:16px/1.5 sans-serif;max-width:70rem;margin:2rem auto;padding:0 1rem}"
            + "table{border-collapse:collapse;margin:0 0 2rem;font-size:.9rem}th,td{border-bottom:1px solid;padding:.3rem .6rem;text-align:left;vertical-align:top}div{overflow-x:auto}@media print{table{font-size:.6rem}}</style>");
        page.Write($"<h1>The record of {Text(copy.Learner)}</h1><p>{Text(copy.Agency)}. Made on {Say.Date(copy.MadeAt.Date)}, {Say.Time(copy.MadeAt.TimeOfDay)}, by {Text(copy.MadeBy)} for {Text(whom)} (34 CFR 300.613).</p>");
        page.Write("<h2>What is not in it</h2><ul>" + string.Concat(LeftOut.Select(line => $"<li>{Text(line)}</li>")) + "</ul>");
        if (copy.Pictures.Count > 0)
            page.Write($"<p>{Text(Say.Count(copy.Pictures.Count, "picture"))} in the folder pictures.</p>");
        foreach (var sheet in copy.Sheets)
            WriteSheet(page, sheet);
    }

    /// <summary>Without the columns in which nothing stands: the tables beside this page hold them.</summary>
    private static void WriteSheet(TextWriter page, CopySheet sheet)
    {
        var cells = sheet.Rows.Select(row => row.Select(CopyWords.Of).ToList()).ToList();
        var filled = Enumerable.Range(0, sheet.Heads.Count).Where(i => cells.Exists(row => row[i].Length > 0)).ToList();
        page.Write($"<h2>{Text(Title(sheet))}</h2><div><table><tr>" + string.Concat(filled.Select(i => $"<th scope=\"col\">{Text(Say.Begin(sheet.Heads[i]))}</th>")) + "</tr>");
        foreach (var row in cells)
            page.Write("<tr>" + string.Concat(filled.Select(i => $"<td>{Text(row[i])}</td>")) + "</tr>");
        page.Write("</table></div>");
    }

    private static string Title(CopySheet sheet) => Titles.GetValueOrDefault(sheet.Table.Replace('_', ' ')) ?? Say.Begin(sheet.Table.Replace('_', ' '));

    private static string Text(string words) => HtmlEncoder.Default.Encode(words);
}
