using TeamCircle.Core.People;

namespace TeamCircle.Web.Ui;

/// <summary>One place of the main navigation.</summary>
public sealed record NavigationPlace(string Words, string Address)
{
    /// <summary>"page" on the place itself, "true" on a page below it, null elsewhere: the value of aria-current.</summary>
    public string? Current(PathString here)
    {
        if (here.Equals(Address, StringComparison.OrdinalIgnoreCase))
            return "page";
        return Address != "/" && here.StartsWithSegments(Address) ? "true" : null;
    }
}

/// <summary>Where somebody can go from every page, by what they are today.</summary>
public static class Navigation
{
    /// <param name="caller">Null where nobody is signed in.</param>
    public static IReadOnlyList<NavigationPlace> For(Caller? caller)
    {
        if (caller is not { IsStaff: true })
            return caller?.Is(Role.Reviewer) == true ? [new("Files", "/review")] : []; // a family has its own page, and the mark leads there
        List<NavigationPlace> places = [new("Today", "/"), new("Calendar", "/calendar"), new("Caseload", "/caseload")];
        if (caller.Is(Role.CaseManager) || caller.Is(Role.Administrator) || caller.Is(Role.Director))
            places.Add(new("Audit", "/audit"));
        if (caller.Is(Role.Administrator) || caller.Is(Role.Director))
            places.Add(new("Settings", "/settings"));
        return places;
    }
}
