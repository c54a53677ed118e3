using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Devices;
using TeamCircle.Data.People;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Devices;

/// <summary>Anybody's devices, for an administrator.</summary>
public sealed class PersonModel(CurrentCaller caller, ReadDevices read, ReadPeople people, RevokeDevice revoke) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    public ListedPerson Person { get; private set; } = null!;

    public IReadOnlyList<ListedDevice> Devices { get; private set; } = [];

    public async Task<IActionResult> OnGetAsync(int id, CancellationToken stop)
    {
        if (await people.RunAsync(caller.Scope, id, stop) is not [var person])
            return NotFound();
        (Person, Devices) = (person, await read.RunAsync(caller.Scope, id, stop));
        return Page();
    }

    public async Task<IActionResult> OnPostAsync(int id, Guid device, CancellationToken stop)
    {
        if ((await revoke.RunAsync(caller.Value, Operation, new(device), stop)).Value is null)
            return NotFound();
        TempData["Done"] = "The device is revoked.";
        return Redirect($"/settings/people/{id}/devices");
    }
}
