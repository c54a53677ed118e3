using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Core.MakeUps;
using TeamCircle.Core.Time;
using TeamCircle.Data.MakeUps;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.MakeUps;

/// <summary>What is lacking, visits that could make up for it, and why something stays unmet. A person accepts or refuses each visit.</summary>
public sealed class IndexModel(CurrentCaller caller, ReadMakeUps read, AcceptMakeUp accept, MakeUpRuns runs) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public int? Learner { get; set; }

    [BindProperty(SupportsGet = true)]
    public int? Service { get; set; }

    [BindProperty(SupportsGet = true)]
    public int? Period { get; set; }

    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public AcceptMakeUp.Input Input { get; set; } = new();

    /// <summary>Null where the agency has no reporting period yet.</summary>
    public MakeUpView? View { get; private set; }

    private MakeUpAsk Ask => new(Learner, Service, Period);

    public async Task<IActionResult> OnGetAsync(CancellationToken stop)
    {
        var run = runs.Find(caller.Value, Ask);
        if (run is not null && await read.HasQuietAsync(caller.Scope, run.Facts, stop))
        {
            runs.Forget(caller.Value);
            run = null;
        }
        if ((run?.Facts ?? await FactsAsync(stop)) is { } facts)
            View = new(facts, Ask, run, runs.Refused(caller.Value));
        return Page();
    }

    /// <summary>How far the search is, for the script that waits for it; no names. One that is no longer known is over.</summary>
    public IActionResult OnGetProgress() => runs.Find(caller.Value) is { } run
        ? new JsonResult(new { words = MakeUpView.Progress(run), isOver = run.IsOver })
        : new JsonResult(new { words = "", isOver = true });

    public async Task<IActionResult> OnPostSearchAsync(CancellationToken stop)
    {
        if (await FactsAsync(stop) is { Lacking.Count: > 0 } facts)
            runs.Start(new(caller.Value, Ask, facts));
        return Again();
    }

    public IActionResult OnPostStop()
    {
        runs.Find(caller.Value)?.Stop();
        return Again();
    }

    public async Task<IActionResult> OnPostAcceptAsync(CancellationToken stop)
    {
        var outcome = ModelState.IsValid ? await accept.RunAsync(caller.Value, Operation, Input with { Period = Period }, stop) : null;
        if (outcome?.Problems.Contains(Problem.NotFound) == true)
            return NotFound();
        foreach (var problem in outcome?.Problems ?? [])
            ModelState.AddModelError("", problem.Message);
        if (outcome?.Value is not { } saved)
            return await OnGetAsync(stop);
        if (runs.Find(caller.Value, Ask) is { } run && run.Facts.Find(Input.Service, Input.Window) is >= 0 and var need)
            run.Accept(need, When(saved.Minutes));
        TempData["Done"] = $"On the calendar: {Say.Weekday(saved.OnDay)}, {Say.Times(saved.Start, saved.Start.PlusMinutes(saved.Minutes))}.";
        return Again();
    }

    /// <summary>The visit is not proposed again until somebody asks for all.</summary>
    public IActionResult OnPostRefuse()
    {
        runs.Refuse(caller.Value, new(Input.Service, Input.Window, Input.OnDay));
        return Again();
    }

    public IActionResult OnPostAll()
    {
        runs.ForgetRefused(caller.Value);
        return Again();
    }

    private Task<MakeUpFacts?> FactsAsync(CancellationToken stop) =>
        read.RunAsync(caller.Value, caller.Scope, Ask, runs.Refused(caller.Value), stop);

    private DayTime When(int minutes)
    {
        var start = (Input.Start.Hour * 60) + Input.Start.Minute;
        return new(Day.Of(Input.OnDay), start, start + minutes);
    }

    private RedirectToPageResult Again() => RedirectToPage(new { Learner, Service, Period });
}
