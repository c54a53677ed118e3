using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Import;
using TeamCircle.Data.Import;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Import;

/// <summary>Takes the files that an agency brings: upload, choice of closures, progress, refused rows.</summary>
[RequestSizeLimit(MostBytes)]
[RequestFormLimits(MultipartBodyLengthLimit = MostBytes)]
public sealed class IndexModel(CurrentCaller caller, ImportRuns runs, ImportFolder import, ReadImports read) : PageModel
{
    private const long MostBytes = BroughtFiles.MostBytes + (1 << 20);

    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    /// <summary>Null where nothing is going on.</summary>
    public ImportRun? Run { get; private set; }
    public IReadOnlyList<PastImport> Past { get; private set; } = [];

    public async Task<IActionResult> OnGetAsync(CancellationToken stop)
    {
        Run = runs.Find(caller.Value);
        if (Run?.State == ImportState.Running)
            Response.Headers["Refresh"] = "2"; // works without scripts
        Past = await read.RunAsync(caller.Scope, stop);
        return Page();
    }

    /// <summary>An empty file with its header, or all of them.</summary>
    public IActionResult OnGetTemplate(string? file) => ImportDownload.Templates(file);

    public IActionResult OnGetRefused() =>
        runs.Find(caller.Value)?.Result is { Refused.Count: > 0 } result ? ImportDownload.Refused(result.Refused) : RedirectToPage();

    /// <summary>The files that came of a OneRoster set.</summary>
    public IActionResult OnGetRoster() =>
        runs.Find(caller.Value)?.Roster is { IsEmpty: false } roster ? ImportDownload.ToComplete(roster) : RedirectToPage();

    public async Task<IActionResult> OnPostAsync(List<IFormFile> files, CancellationToken stop)
    {
        var brought = BroughtFiles.From(files.Select(f => (Path.GetFileName(f.FileName), (Func<Stream>)f.OpenReadStream)));
        if (Wrong(brought) is { } problem)
            ModelState.AddModelError("files", problem);
        else if (!runs.Open(new(caller.Value, Operation, brought, import.Events(brought.Files), brought.IsRoster ? RosterSet.Read(brought.Files, caller.Value.Today) : null)))
            ModelState.AddModelError("files", "Another import is going on. Wait until it has ended.");
        return ModelState.IsValid ? RedirectToPage() : await OnGetAsync(stop);
    }

    /// <summary>The chosen events are closures; the others are not.</summary>
    public IActionResult OnPostChoose(List<string> closures) => Start(ImportState.Choosing, closures.ToHashSet(), goodRows: false);

    public IActionResult OnPostGoodRows() => Start(ImportState.Refused, null, goodRows: true);

    public IActionResult OnPostAnother()
    {
        runs.Forget(caller.Value);
        return RedirectToPage();
    }

    private RedirectToPageResult Start(ImportState expected, IReadOnlySet<string>? closures, bool goodRows)
    {
        if (runs.Find(caller.Value) is { } run && run.State == expected)
            runs.Start(run, closures, goodRows);
        return RedirectToPage();
    }

    private static string? Wrong(BroughtFiles brought) => brought switch
    {
        { Problems: [var first, ..] } => $"{first.File}: {first.Reason}",
        { Files.Count: > 0 } => null,
        { PassedOver.Count: > 0 } => $"None of these is a file that can be imported. Their names are {Say.List(FileShape.FileNames)}.",
        _ => "Choose the files first: a zip of the folder, or the files themselves.",
    };
}
