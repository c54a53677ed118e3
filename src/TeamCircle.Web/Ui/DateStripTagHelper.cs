using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Razor.TagHelpers;
using NodaTime;
using TeamCircle.Core.Papers;

namespace TeamCircle.Web.Ui;

/// <summary>
/// Draws the days that bind on one strip: today, 30, 60 and 90 days ahead, and a stroke for each day; what has passed stands left of today. The list
/// beside it says everything that the strip shows, so that it is hidden from a screen reader.
/// </summary>
[HtmlTargetElement("date-strip", TagStructure = TagStructure.WithoutEndTag)]
public sealed class DateStripTagHelper : TagHelper
{
    private const int Width = 342, Today = 42, ADay = 3, Top = 18, Ground = 40, Foot = 56, Steps = 30;

    public IReadOnlyList<BoundDate> Dates { get; set; } = [];

    [HtmlAttributeName("today")]
    public LocalDate On { get; set; }

    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        output.TagName = null;
        var near = Dates.Select(d => BoundDates.DaysUntil(d.Due, On)).Where(d => d <= BoundDates.DaysAhead).ToList();
        if (near.Count == 0)
            return;
        var svg = new StringBuilder(Invariant($"<svg class=\"date-strip\" viewBox=\"0 0 {Width} {Foot}\" width=\"{Width}\" height=\"{Foot}\" aria-hidden=\"true\" focusable=\"false\">"));
        svg.Append(Invariant($"<path class=\"ground\" d=\"M0 {Ground}H{Width}\"/><path class=\"today\" d=\"M{Today} 12V{Ground + 4}\"/><text class=\"today\" x=\"{Today}\" y=\"9\" text-anchor=\"middle\">today</text>"));
        for (var days = Steps; days <= BoundDates.DaysAhead; days += Steps)
            svg.Append(Invariant($"<path class=\"step\" d=\"M{X(days)} {Ground - 4}v8\"/><text x=\"{X(days)}\" y=\"{Foot - 2}\" text-anchor=\"{(days == BoundDates.DaysAhead ? "end" : "middle")}\">{days} days</text>"));
        if (near.Exists(d => d < 0))
            svg.Append(Invariant($"<text x=\"0\" y=\"{Foot - 2}\">overdue</text>"));
        foreach (var days in near.GroupBy(d => d))
            Draw(svg, X(days.Key), days.Count(), days.Key < 0);
        output.Content.SetHtmlContent(svg.Append("</svg>").ToString());
    }

    /// <summary>A stroke; for several of one day a number over it. What is overdue ends open.</summary>
    private static void Draw(StringBuilder svg, int x, int count, bool isOverdue)
    {
        svg.Append(Invariant($"<path class=\"{(isOverdue ? "past" : "mark")}\" d=\"M{x} {Ground}V{Top + 4}\"/>"));
        if (count > 1)
            svg.Append(Invariant($"<text x=\"{x}\" y=\"{Top}\" text-anchor=\"middle\">{count}</text>"));
    }

    /// <summary>Days long past stand at the strip's left end.</summary>
    private static int X(int days) => days < 0 ? Math.Max(4, Today + (days * ADay) - 4) : Today + (days * ADay);

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
