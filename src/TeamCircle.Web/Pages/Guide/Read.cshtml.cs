using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Pages.Guide;

/// <summary>One guide, task by task.</summary>
public sealed class ReadModel(CurrentCaller caller) : PageModel
{
    public GuideText Text { get; private set; } = null!;

    public IActionResult OnGet(string guide)
    {
        if (caller.Find is not { } who || GuideShelf.Find(who, guide) is not { } text)
            return NotFound();
        Text = text;
        return Page();
    }
}
