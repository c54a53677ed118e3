using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Core.Learners;
using TeamCircle.Data.People;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.People;

/// <summary>What a substitute reads before anything else, on one sheet; and where they say that they read it.</summary>
public sealed class ReadFirstModel(CurrentCaller caller, ReadFirst read, MarkReadFirst mark) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    public ReadFirstPage Shown { get; private set; } = null!;

    public LocalDate Today => caller.Value.Today;

    public bool StandsIn => caller.Value.StandsIn(Shown.Learner);

    public string FirstName => Shown.Name.Split(' ')[0];

    public IEnumerable<ReadFirstPart> Parts(params TeachPart[] parts) => parts.Select(p => Shown.Parts.Single(s => s.Part == p));

    public IEnumerable<ReadFirstPart> Signals => Shown.Parts.Where(p => HowWeTeach.IsSignal(p.Part));

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        Shown = (await read.RunAsync(caller.Value, caller.Scope, id, stop))!;
        return Shown is null ? NotFound() : Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, CancellationToken stop)
    {
        var outcome = await mark.RunAsync(caller.Value, Operation, new(id), stop);
        if (outcome.Value is null)
            return NotFound();
        TempData["Done"] = "Noted that you have read it today.";
        return Redirect("/");
    }
}
