using TeamCircle.Core.Family;
using TeamCircle.Web.Pages.Family;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Account;

/// <summary>In which language somebody reads where their second step is set up and asked for: a family in its own, all others in English.</summary>
internal static class AccountLanguage
{
    public static Language Of(HttpContext http) =>
        http.RequestServices.GetRequiredService<CurrentCaller>().Find is { IsStaff: false } ? FamilyLanguage.Of(http) : Language.English;
}
