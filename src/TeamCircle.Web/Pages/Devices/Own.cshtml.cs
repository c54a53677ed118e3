using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Data.Devices;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Devices;

/// <summary>One's own devices, and the way to be rid of one that was lost.</summary>
public sealed class OwnModel(CurrentCaller caller, ReadDevices read, RevokeDevice revoke) : PageModel
{
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    public IReadOnlyList<ListedDevice> Devices { get; private set; } = [];

    public async Task OnGetAsync(CancellationToken stop) => Devices = await read.RunAsync(caller.Scope, caller.Value.PersonId, stop);

    public async Task<IActionResult> OnPostAsync(Guid device, CancellationToken stop)
    {
        if ((await revoke.RunAsync(caller.Value, Operation, new(device), stop)).Value is null)
            return NotFound();
        TempData["Done"] = "The device is revoked.";
        return Redirect("/account/devices");
    }
}
