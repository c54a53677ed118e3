using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Razor.TagHelpers;
using NodaTime;
using TeamCircle.Data.Commitments;

namespace TeamCircle.Web.Ui;

/// <summary>The dates above a column of rails: first and last day of the reporting period, and "today" over its hairline.</summary>
[HtmlTargetElement("rail-axis", TagStructure = TagStructure.WithoutEndTag)]
public sealed class RailAxisTagHelper : TagHelper
{
    private const double Width = MinuteRailTagHelper.Width;
    private const double RoomForADate = 62;

    public Standings Standings { get; set; } = null!;

    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        output.TagName = null;
        if (Standings.Period is not { } period)
            return;
        var days = Period.DaysBetween(period.StartDay, period.EndDay) + 1;
        var today = (Period.DaysBetween(period.StartDay, Standings.AsOf) + 0.5) * Width / days;
        var isShown = today >= 0 && today <= Width;
        var svg = new StringBuilder(Invariant($"<svg class=\"rail-axis\" viewBox=\"0 0 {Width} 14\" width=\"{Width}\" height=\"14\" aria-hidden=\"true\" focusable=\"false\">"));
        if (!isShown || today > RoomForADate + 20)
            svg.Append(Invariant($"<text x=\"0\" y=\"11\">{Short(period.StartDay)}</text>"));
        if (!isShown || today < Width - RoomForADate - 20)
            svg.Append(Invariant($"<text x=\"{Width}\" y=\"11\" text-anchor=\"end\">{Short(period.EndDay)}</text>"));
        if (isShown)
            svg.Append(Invariant($"<text class=\"today\" x=\"{Math.Clamp(today, 18, Width - 18):0.#}\" y=\"11\" text-anchor=\"middle\">today</text>"));
        output.Content.SetHtmlContent(svg.Append("</svg>").ToString());
    }

    private static string Short(LocalDate day) => day.ToString("d MMM", CultureInfo.InvariantCulture);

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
