using Microsoft.AspNetCore.Mvc.Rendering;
using Microsoft.AspNetCore.Mvc.ViewFeatures;
using Microsoft.AspNetCore.Razor.TagHelpers;

namespace TeamCircle.Web.Ui;

/// <summary>
/// The form's operation id: made when the form is first shown, kept when it is shown again, so that sending it twice
/// saves once.
/// </summary>
[HtmlTargetElement("operation-id", TagStructure = TagStructure.WithoutEndTag)]
public sealed class OperationIdTagHelper : TagHelper
{
    /// <summary>The name under which a page model binds it.</summary>
    public const string Field = "operation";

    [ViewContext, HtmlAttributeNotBound]
    public ViewContext View { get; set; } = null!;

    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        var sent = View.ModelState.TryGetValue(Field, out var entry) ? entry.AttemptedValue : null;
        output.TagName = "input";
        output.TagMode = TagMode.SelfClosing;
        output.Attributes.SetAttribute("type", "hidden");
        output.Attributes.SetAttribute("name", Field);
        output.Attributes.SetAttribute("value", Guid.TryParse(sent, out var id) ? id : Guid.CreateVersion7());
    }
}
