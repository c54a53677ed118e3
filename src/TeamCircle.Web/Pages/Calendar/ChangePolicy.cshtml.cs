using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using NodaTime.Text;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Calendar;

/// <summary>Changes the policy from a period to come; what it would change is shown first.</summary>
public sealed class ChangePolicyModel(CurrentCaller caller, ReadPolicies read, ChangePolicy change) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public ChangePolicy.Input Input { get; set; } = new();

    public PolicyPage Choices { get; private set; } = null!;

    public StatusPreview? Preview { get; private set; }

    public IEnumerable<SelectListItem> Periods =>
        Choices.Periods.Select(p => new SelectListItem($"{p.Name}, {Say.Date(p.StartDay)}", LocalDatePattern.Iso.Format(p.StartDay)));

    public async Task OnGetAsync(CancellationToken stop)
    {
        Choices = await read.RunAsync(caller.Value, caller.Scope, stop);
        if (Choices.Policies is [.., var last])
            (Input.ShortWindow, Input.Surplus, Input.TolerancePercent, Input.SessionShare) =
                (last.Policy.ShortWindow, last.Policy.Surplus, last.Policy.TolerancePercent, last.Policy.SessionShare);
    }

    public async Task<IActionResult> OnPostPreviewAsync(CancellationToken stop)
    {
        Choices = await read.RunAsync(caller.Value, caller.Scope, stop);
        if (!ModelState.IsValid)
            return Page();
        var outcome = await change.PreviewAsync(caller.Value, Input, stop);
        Preview = outcome.Value;
        return Preview is not null ? Page() : this.Refuse(outcome.Problems);
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken stop)
    {
        Choices = await read.RunAsync(caller.Value, caller.Scope, stop);
        if (!ModelState.IsValid)
            return Page();
        var outcome = await change.RunAsync(caller.Value, Operation, Input, stop);
        if (outcome.Value is not { } saved)
        {
            Preview = (await change.PreviewAsync(caller.Value, Input, stop)).Value;
            return this.Refuse(outcome.Problems);
        }
        TempData["Done"] = $"The policy is saved. It begins on {Say.Date(saved.FromDay)}.";
        return Redirect("/settings/policy");
    }
}
