using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;
using TeamCircle.Data.Family;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Family;

/// <summary>What families may do on their page: tell the team something, say what was practised at home.</summary>
public sealed class TellingModel(CurrentCaller caller, SetFamilySwitch set) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    public SetFamilySwitch.Input Input { get; private set; } = new();

    public SetFamilySwitch.Input Home { get; private set; } = new();

    /// <summary>The form that was refused; null where none was.</summary>
    public string? Refused { get; private set; }

    public async Task OnGetAsync(CancellationToken stop) => (Input, Home) = await set.ReadAsync(caller.Scope, stop);

    public async Task<IActionResult> OnPostAsync([Bind(Prefix = nameof(Input))] SetFamilySwitch.Input input, CancellationToken stop)
    {
        var outcome = await set.RunAsync(caller.Value, Operation, input with { Which = FamilySwitch.Tells }, stop);
        if (outcome.Value is { } saved)
            return Done(saved.On ? "Families can tell the team on their page." : "The family's page only shows.");
        return await AgainAsync(outcome.Problems, nameof(Input), () => Input = input with { Version = outcome.Problems.AreOvertaken() ? Input.Version : input.Version }, stop);
    }

    public async Task<IActionResult> OnPostHomeAsync([Bind(Prefix = nameof(Home))] SetFamilySwitch.Input home, CancellationToken stop)
    {
        var outcome = await set.RunAsync(caller.Value, Operation, home with { Which = FamilySwitch.HomeTaps }, stop);
        if (outcome.Value is { } saved)
            return Done(saved.On ? "Families can say what was practised at home, where the case manager lets them." : "Families say by word of mouth what was practised at home.");
        return await AgainAsync(outcome.Problems, nameof(Home), () => Home = home with { Version = outcome.Problems.AreOvertaken() ? Home.Version : home.Version }, stop);
    }

    private RedirectResult Done(string words)
    {
        TempData["Done"] = words;
        return Redirect("/settings");
    }

    private async Task<IActionResult> AgainAsync(IReadOnlyList<Problem> problems, string form, Action keep, CancellationToken stop)
    {
        await OnGetAsync(stop);
        keep();
        Refused = form;
        return this.Refuse(problems, form);
    }
}
