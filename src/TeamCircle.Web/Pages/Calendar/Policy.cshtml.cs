using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Data.Calendar;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Calendar;

/// <summary>The agency's policies over time, in words.</summary>
public sealed class PolicyModel(CurrentCaller caller, ReadPolicies read) : PageModel
{
    public IReadOnlyList<PolicyView> Policies { get; private set; } = [];

    public LocalDate Today => caller.Value.Today;

    public async Task OnGetAsync(CancellationToken stop) => Policies = (await read.RunAsync(caller.Value, caller.Scope, stop)).Policies;

    /// <summary>When a policy holds; the first one holds from the beginning.</summary>
    public string Heading(PolicyView policy) => policy == Policies[0] ? "From the beginning" : $"From {Say.Date(policy.FromDay)}";
}
