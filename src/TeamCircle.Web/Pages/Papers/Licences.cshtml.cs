using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Data.Papers;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Papers;

/// <summary>The licences of a person with their last days, kept by the administrator.</summary>
public sealed class LicencesModel(CurrentCaller caller, ReadLicences read, KeepLicence keep) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    public KeepLicence.Input Input { get; private set; } = new();

    public LicencesPage Shown { get; private set; } = null!;

    public LocalDate Today => caller.Value.Today;

    /// <summary>Whether one of the same name holds longer.</summary>
    public bool IsRenewed(LicenceShown licence) =>
        Shown.Licences.Any(l => l.UntilDay > licence.UntilDay && string.Equals(l.Name, licence.Name, StringComparison.OrdinalIgnoreCase));

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop) => await LoadAsync(id, stop) ? Page() : NotFound();

    public async Task<IActionResult> OnPostAsync(int id, [Bind(Prefix = nameof(Input))] KeepLicence.Input input, CancellationToken stop)
    {
        Input = input with { Person = id, TakeBack = null };
        return await AnswerAsync(await keep.RunAsync(caller.Value, Operation, Input, stop), id, "The licence stands in the list.", nameof(Input), stop);
    }

    public async Task<IActionResult> OnPostTakeBackAsync(int id, int licence, int version, string? reason, CancellationToken stop) => await AnswerAsync(
        await keep.RunAsync(caller.Value, Operation, new() { Person = id, TakeBack = licence, Version = version, Reason = reason }, stop), id, "It is taken back.", "", stop);

    private async Task<IActionResult> AnswerAsync<T>(Outcome<T> outcome, int id, string done, string prefix, CancellationToken stop) where T : class
    {
        if (outcome.Value is null)
            return await LoadAsync(id, stop) ? this.Refuse([.. outcome.Problems.Select(p => p.Field == "Reason" ? p with { Field = "" } : p)], prefix) : NotFound();
        TempData["Done"] = done;
        return Redirect($"/settings/people/{id}/licences");
    }

    private async Task<bool> LoadAsync(int id, CancellationToken stop)
    {
        Shown = (await read.RunAsync(caller.Scope, id, stop))!;
        return Shown is not null;
    }
}
