using TeamCircle.Core.Family;
using TeamCircle.Web.Pages.Family;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Account;

/// <summary>In which language somebody reads where they join, sign in and look after their account, and what stands in place of a page: staff in
/// English, everybody else in the language that they chose in this browser or that it asks for; so whoever has not signed in yet.</summary>
internal static class AccountLanguage
{
    public static Language Of(HttpContext http) =>
        http.RequestServices.GetRequiredService<CurrentCaller>().Find is { IsStaff: true } ? Language.English : FamilyLanguage.Of(http);
}
