using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Core;
using TeamCircle.Core.Family;
using TeamCircle.Data.Family;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Family;

/// <summary>A family tells the team something, where the agency has switched that on, and reads what was answered.</summary>
public sealed class TellModel(CurrentCaller caller, ReadRemarks read, TellTeam tell) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public TellTeam.Input Input { get; set; } = new();

    public RemarksPage Remarks { get; private set; } = null!;

    public FamilySentences Words { get; private set; } = null!;

    public IEnumerable<SelectListItem> Kinds =>
        [.. Enum.GetValues<RemarkKind>().Select(k => new SelectListItem(Words.Say(SummaryWords.ToFamily(k), Words.Child), $"{k}"))];

    public IEnumerable<SelectListItem> Visits => [new(Words.Say(FamilyGlossary.TellNoVisit), ""),
        .. Remarks.Visits.Select(v => new SelectListItem($"{FamilyDates.Begin(Words.Dates.Weekday(v.On))}, {v.Provider}", $"{v.Id}"))];

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop) =>
        await LoadAsync(id, stop) ? Page() : Remarks is null ? NotFound() : Redirect($"/family/{id}"); // what cannot be told here is told by word of mouth

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        Input = Input with { Learner = id };
        var outcome = await tell.RunAsync(caller.Value, Operation, Input, stop);
        if (!await LoadAsync(id, stop))
            return Remarks is null ? NotFound() : Redirect($"/family/{id}");
        if (outcome.Value is null)
            return this.Refuse([.. outcome.Problems.Select(ToFamily)]);
        TempData["Done"] = Words.Say(FamilyGlossary.TellDone);
        return Redirect($"/family/{id}/tell");
    }

    private Problem ToFamily(Problem problem) => problem.Field switch
    {
        nameof(Input.Kind) => problem with { Message = Words.Say(FamilyGlossary.NeedKind) },
        nameof(Input.Visit) => problem with { Message = Words.Say(FamilyGlossary.NeedVisit) },
        nameof(Input.Words) => problem with { Message = Words.Say(FamilyGlossary.NeedWords) },
        _ => problem,
    };

    private async Task<bool> LoadAsync(int id, CancellationToken stop)
    {
        Remarks = (await read.RunAsync(caller.Value, caller.Scope, id, stop))!;
        if (Remarks is null)
            return false;
        Words = new(FamilyLanguage.Of(HttpContext), Remarks.Learner.Split(' ')[0], null);
        return Remarks.FamilyTells;
    }
}
