using Microsoft.AspNetCore.Mvc.Rendering;
using Microsoft.AspNetCore.Mvc.ViewFeatures;
using Microsoft.AspNetCore.Razor.TagHelpers;
using TeamCircle.Core.Account;
using TeamCircle.Core.Family;

namespace TeamCircle.Web.Ui;

/// <summary>At the head of a form: all that is wrong with it, each as a link to its field. Nothing where nothing is wrong.</summary>
[HtmlTargetElement("problem-list", TagStructure = TagStructure.WithoutEndTag)]
public sealed class ProblemListTagHelper : TagHelper
{
    [ViewContext, HtmlAttributeNotBound]
    public ViewContext View { get; set; } = null!;

    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        if (View.ModelState.IsValid)
        {
            output.SuppressOutput();
            return;
        }
        output.TagName = "div";
        output.TagMode = TagMode.StartTagAndEndTag;
        output.Attributes.SetAttribute("class", "problems");
        output.Attributes.SetAttribute("role", "alert");
        var language = View.ViewData["Language"] is "es" ? Language.Spanish : Language.English;
        output.Content.AppendHtml("<p>").Append(FamilyGlossary.NotSaved.In(language)).AppendHtml("</p>");
        var list = new TagBuilder("ul");
        foreach (var (name, entry) in View.ModelState.OrderBy(e => e.Key.Length > 0))
        {
            foreach (var error in entry!.Errors)
                list.InnerHtml.AppendHtml(Line(name, ProblemWords.In(language, error.ErrorMessage)));
        }
        output.Content.AppendHtml(list);
    }

    private static TagBuilder Line(string name, string message)
    {
        var line = new TagBuilder("li");
        if (name.Length == 0)
            line.InnerHtml.Append(message);
        else
        {
            var link = new TagBuilder("a") { Attributes = { ["href"] = "#" + TagBuilder.CreateSanitizedId(name, "_") } };
            link.InnerHtml.Append(message);
            line.InnerHtml.AppendHtml(link);
        }
        return line;
    }
}
