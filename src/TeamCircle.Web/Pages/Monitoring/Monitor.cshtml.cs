using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using NodaTime;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Monitoring;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Monitoring;

/// <summary>What an agency asks about how it records, period by period.</summary>
public sealed class MonitorModel(CurrentCaller caller, ReadAudit audit, ReadIndicators read, ReadPolicies policies) : PageModel
{
    /// <summary>The reporting period; null: the one that holds today, else the last before it.</summary>
    [BindProperty(SupportsGet = true)]
    public int? Of { get; set; }

    public IReadOnlyList<SelectListItem> Choices { get; private set; } = [];

    public PeriodRow? Period { get; private set; }

    /// <summary>The period as far as it has come.</summary>
    public DateInterval? Days { get; private set; }

    /// <summary>Null where there is no period.</summary>
    public Indicators? Indicators { get; private set; }

    public IReadOnlyList<PolicyView> Policies { get; private set; } = [];

    public async Task OnGetAsync(CancellationToken stop)
    {
        var periods = await audit.PeriodsAsync(caller.Scope, stop);
        var today = caller.Value.Today;
        Period = periods.Find(p => p.Id == Of) ?? periods.FindLast(p => p.StartDay <= today) ?? periods.FirstOrDefault();
        if (Period is null)
            return;
        Of = Period.Id;
        Choices = [.. periods.Select(p => new SelectListItem(p.Name, $"{p.Id}"))];
        Days = new DateInterval(Period.StartDay, LocalDate.Max(Period.StartDay, LocalDate.Min(today, Period.EndDay)));
        Indicators = await read.RunAsync(caller.Scope, Days.Start, Days.End, stop);
        Policies = (await policies.RunAsync(caller.Value, caller.Scope, stop)).Policies;
    }
}
