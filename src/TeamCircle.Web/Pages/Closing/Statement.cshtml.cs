using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Closing;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Closing;

/// <summary>The statement that closed a learner's count, as a document: everything in it comes from what was sealed.</summary>
public sealed class StatementModel(CurrentCaller caller, ReadStatement read) : PageModel
{
    public StatementView Statement { get; private set; } = null!;

    /// <summary>Where the other counts of the learner stand: for an outside reviewer the file that is open to them.</summary>
    public string Back(int learner) => caller.Value.IsStaff ? $"/learners/{learner}/close" : $"/learners/{learner}/review";

    /// <param name="edition">Null: the latest.</param>
    public async Task<IActionResult> OnGetAsync(int id, int period, int? edition, CancellationToken stop)
    {
        if (await read.RunAsync(caller.Scope, id, period, edition, stop) is not { } page)
            return Redirect(Back(id));
        Statement = new(page, caller.Value.OnTeam(id));
        return Page();
    }

    public Task<IActionResult> OnGetCsvAsync(int id, int period, int? edition, CancellationToken stop) => FileAsync(id, period, edition, SheetKind.Csv, stop);

    public Task<IActionResult> OnGetXlsxAsync(int id, int period, int? edition, CancellationToken stop) => FileAsync(id, period, edition, SheetKind.Xlsx, stop);

    private async Task<IActionResult> FileAsync(int id, int period, int? edition, SheetKind kind, CancellationToken stop) =>
        await read.RunAsync(caller.Scope, id, period, edition, stop) is { } page ? new StatementFile(page, kind, caller.Value.OnTeam(id)) : Redirect(Back(id));
}
