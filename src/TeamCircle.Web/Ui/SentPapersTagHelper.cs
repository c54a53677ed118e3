using Microsoft.AspNetCore.Mvc.Rendering;
using Microsoft.AspNetCore.Mvc.ViewFeatures;
using Microsoft.AspNetCore.Razor.TagHelpers;
using NodaTime;
using TeamCircle.Core.Papers;
using TeamCircle.Data.Papers;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Ui;

/// <summary>Shows under a paper how it reached the parents: due, sent when, how, in which language, by whom, returned, sent again. Reads it itself; for staff on the team only.</summary>
[HtmlTargetElement("sent-papers", TagStructure = TagStructure.WithoutEndTag)]
public sealed class SentPapersTagHelper(CurrentCaller caller, ReadPapers read, IHtmlHelper html) : TagHelper
{
    public int Learner { get; set; }

    public PaperKind Paper { get; set; }

    public int Id { get; set; }

    [ViewContext, HtmlAttributeNotBound]
    public ViewContext View { get; set; } = null!;

    public override async Task ProcessAsync(TagHelperContext context, TagHelperOutput output)
    {
        output.TagName = null;
        if (!caller.Value.IsStaff || !caller.Value.OnTeam(Learner)
            || await read.RunAsync(caller.Value, caller.Scope, Learner, View.HttpContext.RequestAborted) is not { } papers
            || papers.Papers.FirstOrDefault(p => p.Place == new PaperPlace(Paper, Id)) is not { IsReady: true } paper)
            return;
        ((IViewContextAware)html).Contextualize(View);
        output.Content.SetHtmlContent(await html.PartialAsync("~/Pages/Papers/_SentPaper.cshtml", new SentPaper(Learner, paper, papers.MayKeep, caller.Value.Today)));
    }
}

/// <param name="MayKeep">Whether the reader may say how it went.</param>
public sealed record SentPaper(int Learner, PaperShown Paper, bool MayKeep, LocalDate Today);
