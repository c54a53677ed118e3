using Microsoft.AspNetCore.Mvc.Rendering;
using Microsoft.AspNetCore.Mvc.ViewFeatures;
using Microsoft.AspNetCore.Razor.TagHelpers;

namespace TeamCircle.Web.Ui;

/// <summary>
/// Boxes that are one question: <c>fieldset problem-for="Input.Days"</c>. Where the question has a problem it stands under the legend and is tied to the group;
/// the list of problems leads to the group.
/// </summary>
[HtmlTargetElement("fieldset", Attributes = ProblemFor)]
public sealed class GroupProblemTagHelper : TagHelper
{
    private const string ProblemFor = "problem-for";
    private const string EndOfLegend = "</legend>";

    /// <summary>The field's full name, as the form sends it.</summary>
    [HtmlAttributeName(ProblemFor)]
    public string Name { get; set; } = "";

    [ViewContext, HtmlAttributeNotBound]
    public ViewContext View { get; set; } = null!;

    public override async Task ProcessAsync(TagHelperContext context, TagHelperOutput output)
    {
        var id = TagBuilder.CreateSanitizedId(Name, "_");
        output.Attributes.SetAttribute("id", id);
        output.Attributes.SetAttribute("tabindex", "-1"); // a link to it takes the keyboard along
        if (!View.ModelState.TryGetValue(Name, out var entry) || entry.Errors.Count == 0)
            return;
        output.Attributes.SetAttribute("class", $"{output.Attributes["class"]?.Value} has-problem");
        output.Attributes.SetAttribute("aria-describedby", $"{id}-problem");
        var problem = new TagBuilder("p") { Attributes = { ["class"] = "problem", ["id"] = $"{id}-problem" } };
        problem.InnerHtml.Append(entry.Errors[0].ErrorMessage);
        var inner = (await output.GetChildContentAsync()).GetContent();
        var legend = inner.IndexOf(EndOfLegend, StringComparison.Ordinal) is >= 0 and var at ? at + EndOfLegend.Length : 0;
        output.Content.AppendHtml(inner[..legend]).AppendHtml(problem).AppendHtml(inner[legend..]);
    }
}
