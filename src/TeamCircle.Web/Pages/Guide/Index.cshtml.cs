using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Family;
using TeamCircle.Core.People;
using TeamCircle.Web.Pages.Family;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Guide;

/// <summary>Where help begins: a list of guides for staff and reviewers, a family's own guide for everybody else.</summary>
public sealed class IndexModel(CurrentCaller caller) : PageModel
{
    /// <summary>Null for a family, and for an account that no agency has on its list.</summary>
    public Caller? Reader { get; private set; }

    public Language Language { get; private set; }

    /// <summary>What a family reads, in its language.</summary>
    public GuideText Family => GuideFiles.Find(Language == Language.Spanish ? "familia" : "family")!;

    public void OnGet()
    {
        Reader = caller.Find is { } who && (who.IsStaff || who.Is(Role.Reviewer)) ? who : null;
        Language = Reader is null ? FamilyLanguage.Of(HttpContext) : Language.English;
    }
}
