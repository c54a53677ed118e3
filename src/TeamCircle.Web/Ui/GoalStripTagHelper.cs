using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Razor.TagHelpers;
using NodaTime;
using TeamCircle.Core.Progress;

namespace TeamCircle.Web.Ui;

/// <summary>Draws a <see cref="GoalStrip"/>: a dot for a probe, a ring for teaching data, a dashed line at the target, a hairline where teaching
/// began. What it says in words stands beside it on the page.</summary>
[HtmlTargetElement("goal-strip", TagStructure = TagStructure.WithoutEndTag)]
public sealed class GoalStripTagHelper : TagHelper
{
    private const double Width = MinuteRailTagHelper.Width, Height = 44, Room = 4;

    public GoalStrip Strip { get; set; } = null!;

    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        output.TagName = null;
        output.Content.SetHtmlContent(Draw(Strip));
    }

    public static string Draw(GoalStrip strip)
    {
        var svg = new StringBuilder();
        svg.Append(Invariant($"<svg class=\"rail-strip\" viewBox=\"0 0 {Width} {Height}\" width=\"{Width}\" height=\"{Height}\" aria-hidden=\"true\" focusable=\"false\">"));
        svg.Append(Invariant($"<path class=\"later\" d=\"M0 {Height - 0.5}H{Width}\"/>"));
        if (strip.Target is { } target)
            svg.Append(Invariant($"<path stroke-dasharray=\"4 3\" d=\"M0 {Y(strip, target):0.#}H{Width}\"/>"));
        if (strip.TeachingFrom is { } day && day > strip.First && day < strip.Last)
            svg.Append(Invariant($"<path class=\"today\" d=\"M{X(strip, day):0.#} 0V{Height}\"/>"));
        foreach (var point in strip.Points)
            svg.Append(Invariant($"<circle{(point.Kind == ProbeKind.Probe ? " class=\"dot\"" : "")} cx=\"{X(strip, point.Day):0.#}\" cy=\"{Y(strip, point.Value):0.#}\" r=\"2.25\"/>"));
        return svg.Append("</svg>").ToString();
    }

    private static double X(GoalStrip strip, LocalDate day) =>
        Room + (Width - 2 * Room) * Period.DaysBetween(strip.First, day) / Math.Max(1, Period.DaysBetween(strip.First, strip.Last));

    private static double Y(GoalStrip strip, decimal value) =>
        strip.Most == strip.Least ? Height / 2 : Height - Room - (Height - 2 * Room) * (double)((value - strip.Least) / (strip.Most - strip.Least));

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
