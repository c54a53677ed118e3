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
    [BindProperty(Name = OperationIdTagHelper.Field)]
    public Guid Operation { get; set; }

    /// <summary>Null but for the answer that made it.</summary>
    public string? Address { get; private set; }

    public FeedShown? Feed { get; private set; }

    public async Task OnGetAsync(CancellationToken stop) => Feed = await read.OfAsync(caller.Value, stop);

    public async Task<IActionResult> OnPostAsync(CancellationToken stop)
    {
        var outcome = await make.RunAsync(caller.Value, caller.AccountId!.Value, Operation, stop);
        Feed = await read.OfAsync(caller.Value, stop);
        ModelState.Remove(OperationIdTagHelper.Field); // the form that is shown now makes another address
        if (outcome.Value is not { } made)
            return this.Refuse(outcome.Problems);
        Address = $"{Request.Scheme}://{Request.Host}/feed/{made.Key}.ics";
        return Page();
    }

    /// <param name="feed">The address that the page showed.</param>
    public async Task<IActionResult> OnPostEndAsync(long feed, CancellationToken stop)
    {
        if (await end.RunAsync(caller.Value, caller.AccountId!.Value, feed, stop))
            TempData["Done"] = "The address has ended: it leads nowhere from now on.";
        return RedirectToPage();
    }

    public static string DayOf(Instant at) => Say.Date(at.InUtc().Date);
}
