using Microsoft.AspNetCore.Mvc;
using TeamCircle.Core.Account;
using TeamCircle.Core.People;

namespace TeamCircle.Web.Startup;

/// <summary>Where somebody begins: staff on Today, a reviewer at the files that were opened to them, a family on their child's page.</summary>
internal static class Landing
{
    public static string Of(Caller caller) => caller.IsStaff ? "/"
        : caller.Is(Role.Reviewer) ? "/review"
        : caller.Standings.Where(s => s.Relation is Relation.Family).Select(s => $"/family/{s.LearnerId}").FirstOrDefault() ?? "/account";

    /// <summary>Whether they asked for the portal's first page and begin on another one.</summary>
    public static bool IsElsewhere(HttpContext http, Caller caller) => http.Request.Path == "/" && Of(caller) != "/";

    public const string SecondStep = "/sign-in/second-step", SettingUp = "/account/factors", Provider = "/account/provider";

    /// <summary>The page on which a sign-in shows what it lacks, or sets it up; from there it goes on to the page that was wanted.</summary>
    public static string Of(Lack lack, string? wanted) =>
        (lack switch { Lack.SecondStep => SecondStep, Lack.Provider => Provider, _ => SettingUp }) + (wanted is null or "/" ? "" : "?then=" + Uri.EscapeDataString(wanted));

    /// <summary>Leads there from a page that was asked for.</summary>
    public static LocalRedirectResult ToWhatLacks(HttpContext http, Lack lack) =>
        new(Of(lack, HttpMethods.IsGet(http.Request.Method) ? http.Request.Path + http.Request.QueryString : null));
}
