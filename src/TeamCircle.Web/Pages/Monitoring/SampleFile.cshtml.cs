using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Core.Monitoring;
using TeamCircle.Data.Monitoring;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Monitoring;

/// <summary>One file of a sample: each question with what is on record, and an answer.</summary>
public sealed class SampleFileModel(CurrentCaller caller, ReadSamples read, AnswerFile answer) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public AnswerFile.Input Input { get; set; } = new();

    public static IReadOnlyList<SelectListItem> Choices { get; } =
        [.. Enum.GetValues<FileAnswer>().Select(a => new SelectListItem(Say.Begin(MonitorWords.Answer(a)), $"{a}"))];

    public SampleFileShown Shown { get; private set; } = null!;

    public async Task<IActionResult> OnGetAsync(int id, int file, CancellationToken stop)
    {
        if (!await LoadAsync(id, file, stop))
            return NotFound();
        Input = new()
        {
            Answers =
            [
                .. Shown.Checks.Select(c => Shown.Answered.TryGetValue(c.Question, out var said)
                    ? new AnswerFile.Answer { Question = c.Question, Said = said.Answer, Word = said.Word }
                    : new AnswerFile.Answer { Question = c.Question, Said = c.Proposed }),
            ],
        };
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, int file, CancellationToken stop)
    {
        var outcome = ModelState.IsValid ? await answer.RunAsync(caller.Value, Operation, Input with { Learner = id, File = file }, stop) : null;
        if (outcome?.Value is { } saved)
        {
            TempData["Done"] = "The answers are saved.";
            return Redirect($"/audit/monitor/samples/{saved.Sample}");
        }
        return await LoadAsync(id, file, stop) ? this.Refuse(outcome?.Problems ?? []) : NotFound();
    }

    private async Task<bool> LoadAsync(int id, int file, CancellationToken stop)
    {
        Shown = (await read.FileAsync(caller.Scope, id, file, caller.Value.Today, stop))!;
        return Shown is not null;
    }
}
