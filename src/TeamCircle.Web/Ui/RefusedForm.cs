using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core;

namespace TeamCircle.Web.Ui;

/// <summary>What a page answers where an operation refused: the same form with what was typed, or nothing at all.</summary>
internal static class RefusedForm
{
    /// <summary>Whether somebody else saved the same thing while this form was filled in.</summary>
    public static bool AreOvertaken(this IReadOnlyList<Problem> problems) => problems.Any(p => p.Field == Problem.VersionField);

    /// <summary>
    /// 404 for what the caller has no business with. Otherwise the form again; where it was overtaken with 409, and the
    /// hidden fields that say on what it began are filled anew, so that saving again is a choice.
    /// </summary>
    /// <param name="prefix">The name of the bound property.</param>
    public static IActionResult Refuse(this PageModel page, IReadOnlyList<Problem> problems, string prefix = "Input")
    {
        if (problems.Contains(Problem.NotFound))
            return page.NotFound();
        page.ModelState.AddProblems([.. problems.Where(p => p.Field != Problem.VersionField)], prefix);
        var shown = page.Page();
        if (!problems.AreOvertaken())
            return shown;
        page.ViewData["Overtaken"] = true;
        page.ModelState.Remove($"{prefix}.Version");
        page.ModelState.Remove($"{prefix}.Stamp");
        shown.StatusCode = StatusCodes.Status409Conflict;
        return shown;
    }
}
