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
}
