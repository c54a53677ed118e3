using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Razor.TagHelpers;
using TeamCircle.Core.Practice;

namespace TeamCircle.Web.Pages.Guide;

/// <summary>Draws a wait curve as steps that rise with each response, a dashed line at one half. The same stands in words beside it.</summary>
[HtmlTargetElement("wait-steps", TagStructure = TagStructure.WithoutEndTag)]
public sealed class WaitStepsTagHelper : TagHelper
{
    private const double Width = 420, Height = 140, Left = 34, Foot = 22, Top = 6;

    public WaitCurve Curve { get; set; } = null!;

    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        output.TagName = null;
        if (Curve.Trials > 0 && Curve.Longest > 0)
            output.Content.SetHtmlContent(Draw(Curve));
    }

    public static string Draw(WaitCurve curve)
    {
        double X(decimal seconds) => Left + ((Width - Left - 4) * (double)(seconds / curve.Longest));
        double Y(double responded) => Height - Foot - ((Height - Foot - Top) * responded);
        var path = new StringBuilder(Invariant($"M{X(0):0.#} {Y(0):0.#}"));
        foreach (var step in curve.Steps)
            path.Append(Invariant($"H{X(step.Seconds):0.#}V{Y(1 - step.Waiting):0.#}"));
        path.Append(Invariant($"H{X(curve.Longest):0.#}"));
        return Invariant($"<svg class=\"wait-steps\" viewBox=\"0 0 {Width} {Height}\" width=\"{Width}\" height=\"{Height}\" aria-hidden=\"true\" focusable=\"false\">")
            + Invariant($"<path class=\"ground\" d=\"M{Left} {Top}V{Height - Foot}H{Width}\"/><path class=\"half\" d=\"M{Left} {Y(0.5):0.#}H{Width}\"/><path d=\"{path}\"/>")
            + Invariant($"<text x=\"{Left - 6}\" y=\"{Y(0.5) + 4:0.#}\" text-anchor=\"end\">half</text><text x=\"{Left}\" y=\"{Height - 6}\">0 s</text>")
            + Invariant($"<text x=\"{Width - 4}\" y=\"{Height - 6}\" text-anchor=\"end\">{curve.Longest} s</text></svg>");
    }

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
