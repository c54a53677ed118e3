using Microsoft.AspNetCore.Mvc.Rendering;
using Microsoft.AspNetCore.Mvc.ViewFeatures;
using Microsoft.AspNetCore.Razor.TagHelpers;
using NodaTime;
using TeamCircle.Core.Papers;
using TeamCircle.Data.Papers;
using TeamCircle.Web.Startup;

namespace TeamCircle.Web.Ui;

/// <summary>Shows the days of a learner that bind within 90 days, or have passed, on whatever page it stands. Reads them itself; shows nothing where there are none.</summary>
[HtmlTargetElement("bound-dates", TagStructure = TagStructure.WithoutEndTag)]
public sealed class BoundDatesTagHelper(CurrentCaller caller, ReadDates read, IHtmlHelper html) : TagHelper
{
    public int Learner { get; set; }

    /// <summary>Whether the learner is quiet: then nothing waits for anybody.</summary>
    public bool Quiet { get; set; }

    [ViewContext, HtmlAttributeNotBound]
    public ViewContext View { get; set; } = null!;

    public override async Task ProcessAsync(TagHelperContext context, TagHelperOutput output)
    {
        output.TagName = null;
        var open = await read.OpenAsync(caller.Value, caller.Scope, Learner, View.HttpContext.RequestAborted);
        var near = open.Where(d => BoundDates.DaysUntil(d.Due, caller.Value.Today) <= BoundDates.DaysAhead).ToList();
        if (near.Count == 0)
            return;
        ((IViewContextAware)html).Contextualize(View);
        output.Content.SetHtmlContent(await html.PartialAsync("~/Pages/Papers/_NearDates.cshtml", new NearDates(Learner, near, caller.Value.Today, !Quiet && BoundDates.MayKeep(caller.Value, Learner))));
    }
}

/// <param name="Dates">By day.</param>
/// <param name="MayWait">Whether they wait for the reader when they are near.</param>
public sealed record NearDates(int Learner, IReadOnlyList<BoundDate> Dates, LocalDate Today, bool MayWait)
{
    public bool Waits(BoundDate date) => MayWait && BoundDates.Waits(date, Today);
}
