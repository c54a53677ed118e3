using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Data;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Commitments;

/// <summary>The reporting period: where every service and probe commitment stands, and whether each provider's are in order.</summary>
public sealed class AuditModel(CurrentCaller caller, ReadAudit read, ReadForecasts forecasts) : PageModel
{
    public const int RowsAScreen = 200;

    [BindProperty(SupportsGet = true)]
    public int? Period { get; set; }

    [BindProperty(SupportsGet = true)]
    public LocalDate? AsOf { get; set; }

    [BindProperty(SupportsGet = true)]
    public AuditBy By { get; set; }

    [BindProperty(SupportsGet = true)]
    public Status? Status { get; set; }

    [BindProperty(SupportsGet = true)]
    public Discipline? Discipline { get; set; }

    [BindProperty(SupportsGet = true)]
    public int? Person { get; set; }

    [BindProperty(SupportsGet = true)]
    public int? Learner { get; set; }

    [BindProperty(SupportsGet = true, Name = "screen")]
    public int Screen { get; set; } = 1;

    /// <summary>Null where the agency has no reporting period yet.</summary>
    public Audit? Audit { get; private set; }

    public IReadOnlyList<PeriodRow> Periods { get; private set; } = [];

    /// <summary>The rows asked for, of all screens.</summary>
    public IReadOnlyList<AuditRow> Rows { get; private set; } = [];

    public bool IsWholeAgency => caller.Scope.Wall == Data.Wall.Agency;

    public AuditFilter Filter => new() { By = By, Status = Status, Discipline = Discipline, Person = Person, Learner = Learner };

    public AuditAddress Address => new(Audit!.Period.Id, Audit.AsOf, Filter);

    public AuditChoices Choices => field ??= new(Audit!, Periods, Filter);

    public int Screens => Math.Max(1, (Rows.Count + RowsAScreen - 1) / RowsAScreen);

    public AuditTable Table => new(Audit!, Shown, Address) { Caller = caller.Value, Forecasts = Forecasts };

    private IReadOnlyList<AuditRow> Shown => [.. Rows.Skip((Screen - 1) * RowsAScreen).Take(RowsAScreen)];

    /// <summary>Of the learners on this screen.</summary>
    private Forecasts? Forecasts { get; set; }

    public async Task OnGetAsync(CancellationToken stop)
    {
        if (!await LoadAsync(read.FromStandbyAsync, stop))
            return;
        Screen = Math.Clamp(Screen, 1, Screens);
        Forecasts = await forecasts.RunAsync(Reach, Audit!.AsOf, [.. Shown.Select(r => Audit.Lines[r.Line].Line.LearnerId).Distinct()], stop);
    }

    public async Task<IActionResult> OnGetCsvAsync(CancellationToken stop) =>
        await LoadAsync(read.RunAsync, stop) ? new AuditFile(Audit!, Rows, SheetKind.Csv) : NotFound();

    public async Task<IActionResult> OnGetXlsxAsync(CancellationToken stop) =>
        await LoadAsync(read.RunAsync, stop) ? new AuditFile(Audit!, Rows, SheetKind.Xlsx) : NotFound();

    /// <summary>Minutes and statuses are for the whole agency, or for the learners on whose team the reader is in full.</summary>
    private Scope Reach => IsWholeAgency ? caller.Scope : Scope.Of(caller.Value.AsMember(), caller.Scope.Ground);

    /// <summary>The page may come from a standby and says so; a file goes out of sight and comes from the primary.</summary>
    private async Task<bool> LoadAsync(Func<Scope, int, LocalDate, CancellationToken, Task<Audit?>> from, CancellationToken stop)
    {
        Periods = await read.PeriodsAsync(Reach, stop);
        var day = AsOf ?? caller.Value.Today;
        var period = Periods.FirstOrDefault(p => p.Id == Period) ?? Periods.LastOrDefault(p => p.StartDay <= day) ?? (Periods.Count > 0 ? Periods[0] : null);
        if (period is null)
            return false;
        Period = period.Id; // the list of periods shows the one that was chosen for the reader
        Audit = await from(Reach, period.Id, day, stop);
        Rows = Audit is null ? [] : Filter.Apply(Audit);
        return Audit is not null;
    }
}
