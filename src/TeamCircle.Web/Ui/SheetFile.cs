using System.Text;
using Microsoft.AspNetCore.Mvc;
using MiniExcelLibs;
using TeamCircle.Data.Import;

namespace TeamCircle.Web.Ui;

public enum SheetKind
{
    Csv,
    Xlsx,
}

/// <summary>Answers with a table as a file. No name of a person stands in the file's name.</summary>
public abstract class SheetFile(SheetKind kind) : ActionResult
{
    private const string Workbook = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

    /// <summary>Without its ending.</summary>
    protected abstract string Name { get; }

    /// <summary>What the sheet of a workbook is called.</summary>
    protected abstract string Sheet { get; }

    protected abstract IReadOnlyList<string> Heads { get; }

    /// <summary>Cells: text that is safe in a spreadsheet, a number, or null for an empty one.</summary>
    protected abstract IEnumerable<IEnumerable<object?>> Rows { get; }

    public override Task ExecuteResultAsync(ActionContext context)
    {
        using var content = new MemoryStream();
        Write(content);
        var file = kind == SheetKind.Csv
            ? new FileContentResult(content.ToArray(), "text/csv; charset=utf-8") { FileDownloadName = $"{Name}.csv" }
            : new FileContentResult(content.ToArray(), Workbook) { FileDownloadName = $"{Name}.xlsx" };
        return file.ExecuteResultAsync(context);
    }

    private void Write(Stream content)
    {
        if (kind == SheetKind.Xlsx)
        {
            content.SaveAs(Rows.Select(row => Heads.Zip(row).ToDictionary(c => c.First, c => c.Second)), sheetName: Sheet);
            return;
        }
        // With a byte-order mark, without which spreadsheets take UTF-8 for something else.
        using var text = new StreamWriter(content, new UTF8Encoding(true), leaveOpen: true);
        CsvSheet.Write(text, Heads, Rows);
    }
}
