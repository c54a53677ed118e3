using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Family;
using TeamCircle.Core.Guide;
using TeamCircle.Core.People;
using TeamCircle.Web.Pages.Family;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Guide;

/// <summary>The glossary: all of it for staff and reviewers, a family's own words in its language for everybody else.</summary>
public sealed class WordsModel(CurrentCaller caller) : PageModel
{
    public bool IsFamily => caller.Find is not { } who || !(who.IsStaff || who.Is(Role.Reviewer));

    public Language Language { get; private set; }

    public IEnumerable<(Phrase Word, Phrase Meaning)> OfFamilies =>
        Glossary.Parts.SelectMany(p => p.Terms).Where(t => t.Family is not null).Select(t => (t.Family!, t.Told!));

    public void OnGet() => Language = IsFamily ? FamilyLanguage.Of(HttpContext) : Language.English;
}
