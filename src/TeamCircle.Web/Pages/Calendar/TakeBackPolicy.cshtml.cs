using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Calendar;

/// <summary>Takes back a policy that has not begun.</summary>
public sealed class TakeBackPolicyModel(CurrentCaller caller, ReadPolicies read, TakeBackPolicy takeBack) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    [BindProperty]
    public TakeBackPolicy.Input Input { get; set; } = new();

    public PolicyPage Choices { get; private set; } = null!;

    public PolicyView Policy { get; private set; } = null!;

    public StatusPreview? Preview { get; private set; }

    public async Task<IActionResult> OnGetAsync(int policy, CancellationToken stop)
    {
        if (!await LoadAsync(policy, stop))
            return NotFound();
        Input.Version = Policy.Version;
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int policy, CancellationToken stop)
    {
        if (!await LoadAsync(policy, stop))
            return NotFound();
        if (!ModelState.IsValid)
            return Page();
        var outcome = await takeBack.RunAsync(caller.Value, Operation, Input, stop);
        if (outcome.Value is null)
        {
            Input.Version = Policy.Version;
            return this.Refuse(outcome.Problems);
        }
        TempData["Done"] = "The policy is taken back.";
        return Redirect("/settings/policy");
    }

    private async Task<bool> LoadAsync(int policy, CancellationToken stop)
    {
        Input.Policy = policy;
        Choices = await read.RunAsync(caller.Value, caller.Scope, stop);
        Preview = (await takeBack.PreviewAsync(caller.Value, Input, stop)).Value;
        Policy = Choices.Policies.SingleOrDefault(p => p.Id == policy && p.FromDay > caller.Value.Today)!;
        return Policy is not null;
    }
}
