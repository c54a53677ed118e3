using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace TeamCircle.Web.Pages.Guide;

/// <summary>A picture of a guide. Everything on it is made up.</summary>
public sealed class PictureModel : PageModel
{
    public IActionResult OnGet(string name) => GuideFiles.OpenPicture(name) is { } picture ? File(picture, "image/png") : NotFound();
}
