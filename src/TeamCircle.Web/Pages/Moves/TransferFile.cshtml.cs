using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Moves;
using TeamCircle.Data.Moves;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Moves;

/// <summary>A file for a receiving agency as it was made: made for print, and as tables in one archive.</summary>
public sealed class TransferFileModel(CurrentCaller caller, ReadMoveOut read) : PageModel
{
    public TransferFile Shown { get; private set; } = null!;

    public TransferContent Made => Shown.Content;

    public int Number { get; private set; }

    public async Task<IActionResult> OnGetAsync(int id, int transfer, CancellationToken stop)
    {
        if (await read.FileAsync(caller.Scope, id, transfer, stop) is not { } shown)
            return Redirect($"/learners/{id}/moves-out");
        (Shown, Number) = (shown, transfer);
        return Page();
    }

    public async Task<IActionResult> OnGetZipAsync(int id, int transfer, CancellationToken stop)
    {
        if (await read.FileAsync(caller.Scope, id, transfer, stop) is not { } shown)
            return Redirect($"/learners/{id}/moves-out");
        using var content = new MemoryStream();
        TransferSheets.Write(content, shown);
        return File(content.ToArray(), "application/zip", string.Create(CultureInfo.InvariantCulture, $"transfer-{shown.MadeAt.Date:uuuu-MM-dd}.zip"));
    }
}
