using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Mvc.Rendering;
using Microsoft.AspNetCore.Mvc.ViewFeatures;
using Microsoft.AspNetCore.Razor.TagHelpers;
using TeamCircle.Data.Moves;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Ui;

/// <summary>Says at a visit or report that it can no longer be logged or signed by somebody who has left: who filed it, when and why.</summary>
[HtmlTargetElement("filed-items", TagStructure = TagStructure.WithoutEndTag)]
public sealed class FiledTagHelper(CurrentCaller caller, ReadLastDay read, HtmlEncoder encoder) : TagHelper
{
    /// <summary>One of these two.</summary>
    public Guid? Visit { get; set; }

    public int? Report { get; set; }

    [ViewContext, HtmlAttributeNotBound]
    public ViewContext View { get; set; } = null!;

    public override async Task ProcessAsync(TagHelperContext context, TagHelperOutput output)
    {
        output.TagName = null;
        foreach (var filed in await read.FiledAsync(caller.Scope, Visit, Report, View.HttpContext.RequestAborted))
            output.Content.AppendHtml($"<p class=\"note\">{encoder.Encode($"{Pages.Moves.MoveWords.Of(filed)} (filed by {filed.By}, {Say.Date(filed.On)})")}</p>");
    }
}
