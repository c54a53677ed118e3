using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Data.Account;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Account;

/// <summary>The secret address of one's own visits: makes it, shows it once, ends it.</summary>
public sealed class FeedModel(CurrentCaller caller, ReadFeed read, MakeFeed make, EndFeed end) : PageModel
{
    /// <summary>Null but for the answer that made it.</summary>
    public string? Address { get; private set; }

    public FeedShown? Feed { get; private set; }

    public async Task OnGetAsync(CancellationToken stop) => Feed = await read.OfAsync(caller.Value, stop);

    public async Task OnPostAsync(CancellationToken stop)
    {
        var key = await make.RunAsync(caller.Value, caller.AccountId!.Value, stop);
        Address = $"{Request.Scheme}://{Request.Host}/feed/{key}.ics";
        Feed = await read.OfAsync(caller.Value, stop);
    }

    public async Task<IActionResult> OnPostEndAsync(CancellationToken stop)
    {
        if (await end.RunAsync(caller.Value, caller.AccountId!.Value, stop))
            TempData["Done"] = "The address has ended: it leads nowhere from now on.";
        return RedirectToPage();
    }

    public static string DayOf(Instant at) => Say.Date(at.InUtc().Date);
}
