using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using NodaTime;
using TeamCircle.Core.Account;
using TeamCircle.Core.Mail;
using TeamCircle.Data.Mail;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Account;

/// <summary>Which mails one gets, on which days, at which hour, and when none.</summary>
public sealed class MailModel(CurrentCaller caller, ReadChoices read, ChooseMails choose) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public ChooseMails.Input Input { get; set; } = new();

    public MailChoices Choices { get; private set; } = null!;

    public IReadOnlyList<MailKind> Kinds => MailKinds.For(caller.Value.Roles);

    public bool GetsDigests => Kinds.Any(MailKinds.IsDigest);

    public bool IsFamily => Kinds.Any(MailKinds.IsForFamily);

    public bool Gets(MailKind kind) => Kinds.Contains(kind);

    public IEnumerable<SelectListItem> Zones => MailWords.Zones(Choices.AgencyZone);

    public async Task<IActionResult> OnGetAsync(CancellationToken stop)
    {
        if (caller.Find is null)
            return RedirectToPage("/Account/Agency");
        Choices = await read.RunAsync(caller.Value, stop);
        Input = Of(Choices);
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken stop)
    {
        if (caller.Find is null)
            return RedirectToPage("/Account/Agency");
        Choices = await read.RunAsync(caller.Value, stop);
        var outcome = ModelState.IsValid ? await choose.RunAsync(caller.Value, Operation, Input, stop) : null;
        if (outcome?.Value is not null)
        {
            TempData["Done"] = OwnAccountWords.ChoiceSaved.In(AccountLanguage.Of(HttpContext));
            return Redirect("/account/mail");
        }
        var problems = outcome?.Problems ?? [];
        if (problems.AreOvertaken())
            Input = Input with { Version = Choices.Version };
        return this.Refuse(problems);
    }

    private static ChooseMails.Input Of(MailChoices choices)
    {
        var row = choices.Choice;
        return new()
        {
            Version = choices.Version,
            VisitsAndMinutes = row.VisitsAndMinutes,
            WaitingForYourDecision = row.WaitingForYourDecision,
            NewSummary = row.NewSummary,
            VisitChanged = row.VisitChanged,
            Days = [.. MailWords.Days.Where(d => (row.Days >> ((int)d - 1) & 1) == 1)],
            At = row.At,
            QuietFrom = row.QuietFrom,
            QuietUntil = row.QuietUntil,
            TimeZone = row.TimeZone,
            Language = row.Language,
        };
    }
}
