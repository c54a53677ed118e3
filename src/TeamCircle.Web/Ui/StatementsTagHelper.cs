using Microsoft.AspNetCore.Mvc.Rendering;
using Microsoft.AspNetCore.Mvc.ViewFeatures;
using Microsoft.AspNetCore.Razor.TagHelpers;
using TeamCircle.Core.Rights;
using TeamCircle.Data.Rights;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Ui;

/// <summary>Shows the parent's statements beside an entry, wherever the entry is shown (34 CFR 300.620(c)). Reads them itself, so that no page can forget to.</summary>
[HtmlTargetElement("parent-statements", TagStructure = TagStructure.WithoutEndTag)]
public sealed class StatementsTagHelper(CurrentCaller caller, ReadStatements read, IHtmlHelper html) : TagHelper
{
    public int Learner { get; set; }

    /// <summary>All of the learner: for a page that shows many entries at once.</summary>
    public bool All { get; set; }

    /// <summary>One of these three; none of them: the record as a whole.</summary>
    public Guid? Visit { get; set; }

    public Guid? Probe { get; set; }

    public int? Report { get; set; }

    [ViewContext, HtmlAttributeNotBound]
    public ViewContext View { get; set; } = null!;

    private StatementPlace Place => this switch
    {
        { Visit: { } visit } => new(StatementAbout.Visit, Visit: visit),
        { Probe: { } probe } => new(StatementAbout.Probe, Probe: probe),
        { Report: { } report } => new(StatementAbout.Report, Report: report),
        _ => new(StatementAbout.Record),
    };

    public override async Task ProcessAsync(TagHelperContext context, TagHelperOutput output)
    {
        output.TagName = null;
        var stop = View.HttpContext.RequestAborted;
        var statements = All ? await read.AllAsync(caller.Scope, Learner, stop) : await read.RunAsync(caller.Scope, Learner, Place, stop);
        ((IViewContextAware)html).Contextualize(View);
        if (statements.Count > 0)
            output.Content.SetHtmlContent(await html.PartialAsync("_Statements", statements));
    }
}
