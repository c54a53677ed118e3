using System.Text;
using Microsoft.AspNetCore.Mvc;
using MiniExcelLibs;
using TeamCircle.Data.Commitments;

namespace TeamCircle.Web.Pages.Commitments;

public enum AuditFileKind
{
    Csv,
    Xlsx,
}

/// <summary>Answers with the lines of an audit as a file: all that were asked for, not one screen. No name stands in the file's name.</summary>
public sealed class AuditFile(Audit audit, IReadOnlyList<AuditRow> rows, AuditFileKind kind) : ActionResult
{
    private const string Workbook = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

    private IEnumerable<AuditLine> Lines => rows.Select(r => r.Line).Distinct().Select(i => audit.Lines[i]);

    public override Task ExecuteResultAsync(ActionContext context)
    {
        using var content = new MemoryStream();
        Write(content);
        var name = $"audit-{audit.Period.StartDay:uuuu-MM-dd}-as-of-{audit.AsOf:uuuu-MM-dd}.{(kind == AuditFileKind.Csv ? "csv" : "xlsx")}";
        var file = new FileContentResult(content.ToArray(), kind == AuditFileKind.Csv ? "text/csv; charset=utf-8" : Workbook) { FileDownloadName = name };
        return file.ExecuteResultAsync(context);
    }

    private void Write(Stream content)
    {
        if (kind == AuditFileKind.Xlsx)
        {
            content.SaveAs(Lines.Select(Cells), sheetName: "Audit");
            return;
        }
        // With a byte-order mark, without which spreadsheets take UTF-8 for something else.
        using var text = new StreamWriter(content, new UTF8Encoding(true), leaveOpen: true);
        AuditSheet.WriteCsv(text, audit, Lines);
    }

    private Dictionary<string, object?> Cells(AuditLine line) =>
        AuditSheet.Heads.Zip(AuditSheet.Cells(audit, line)).ToDictionary(c => c.First, c => c.Second);
}
