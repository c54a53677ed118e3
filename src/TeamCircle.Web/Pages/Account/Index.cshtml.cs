using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using NodaTime;
using TeamCircle.Core.Account;
using TeamCircle.Core.Family;
using TeamCircle.Data.Account;
using TeamCircle.Web.Pages.Family;
using TeamCircle.Web.Startup;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Account;

/// <summary>One's own account: where it is signed in, and the way to everything else about it.</summary>
public sealed class IndexModel(CurrentCaller caller, ReadSignIns read, EndOwnSignIns end, ReadMemberships memberships, IdentityProviders providers) : PageModel
{
    public IReadOnlyList<SignInLine> Lines { get; private set; } = [];
    public int Agencies { get; private set; }

    /// <summary>The name of the agency in which they act; empty where they act in none.</summary>
    public string Agency { get; private set; } = "";

    /// <summary>The agency in which they act has an identity provider.</summary>
    public bool HasProvider { get; private set; }

    public bool IsPaused => caller.Find is { HasPausedSeat: true };
    public bool IsStaff => caller.Find is { IsStaff: true };
    public long Here => caller.SignInId!.Value;

    private DateTimeZone _zone = DateTimeZone.Utc;

    public async Task OnGetAsync(CancellationToken stop)
    {
        var places = await memberships.RunAsync(caller.AccountId!.Value, stop);
        Agencies = places.Count;
        if (places.FirstOrDefault(p => p.Agency == caller.Find?.AgencyId) is { } here)
            (_zone, Agency) = (DateTimeZoneProviders.Tzdb[here.TimeZone], here.AgencyName);
        HasProvider = caller.Find is { } who && await providers.OfAsync(who.AgencyId, stop) is not null;
        Lines = await read.RunAsync(caller.AccountId!.Value, stop);
    }

    public async Task<IActionResult> OnPostAsync(long signIn, CancellationToken stop)
    {
        if (await end.RunAsync(caller.AccountId!.Value, Here, signIn, stop) == 0)
            return NotFound();
        TempData["Done"] = OwnAccountWords.Ended.In(AccountLanguage.Of(HttpContext));
        return RedirectToPage();
    }

    public async Task<IActionResult> OnPostOthersAsync(CancellationToken stop)
    {
        await end.RunAsync(caller.AccountId!.Value, Here, null, stop);
        TempData["Done"] = OwnAccountWords.EndedOthers.In(AccountLanguage.Of(HttpContext));
        return RedirectToPage();
    }

    /// <summary>In the agency's own time; without an agency, in UTC, and said so.</summary>
    public string TimeOf(Instant at, Language language)
    {
        var local = at.InZone(_zone).LocalDateTime;
        var dates = new FamilyDates(language);
        return $"{dates.Day(local.Date)}, {dates.Time(local.TimeOfDay)}{(_zone == DateTimeZone.Utc ? " UTC" : "")}";
    }
}
