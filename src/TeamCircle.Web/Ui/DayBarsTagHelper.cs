using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Razor.TagHelpers;
using NodaTime;

namespace TeamCircle.Web.Ui;

/// <summary>One day of a small chart.</summary>
/// <param name="Value">Filled, from the ground up; 0 or more.</param>
/// <param name="Above">In outline above it; 0 or more.</param>
public sealed record DayBar(LocalDate Day, int Value, int Above);

/// <summary>
/// Draws days as bars, oldest on the left, beside the table that has the same numbers: a bar for each day on which something was written, and
/// the first and last day and the highest bar in figures. Days on which nothing was written have no place.
/// </summary>
[HtmlTargetElement("day-bars", TagStructure = TagStructure.WithoutEndTag)]
public sealed class DayBarsTagHelper : TagHelper
{
    private const int Height = 64, Bar = 10, Step = 14, Edge = 40, Foot = 18;

    /// <summary>Oldest first; nothing is drawn where there are fewer than two.</summary>
    public IReadOnlyList<DayBar> Bars { get; set; } = [];

    /// <summary>What is drawn, in words above it.</summary>
    public string Words { get; set; } = "";

    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        output.TagName = null;
        if (Bars.Count < 2)
            return;
        var most = Math.Max(1, Bars.Max(b => b.Value + b.Above));
        output.Content.AppendHtml("<p class=\"aside\">").Append(Words).AppendHtml(Invariant(
            $"<span class=\"unseen\">: from {Say.Date(Bars[0].Day)} to {Say.Date(Bars[^1].Day)}, at most {Say.Number(most)}; each stands in the table below</span></p>"));
        output.Content.AppendHtml(Draw(most));
    }

    private string Draw(int most)
    {
        var width = Edge + (Bars.Count * Step);
        var svg = new StringBuilder();
        svg.Append(Invariant($"<svg class=\"day-bars\" viewBox=\"0 0 {Math.Max(width, 240)} {Height + Foot}\" width=\"{Math.Max(width, 240)}\" height=\"{Height + Foot}\" aria-hidden=\"true\" focusable=\"false\">"));
        svg.Append(Invariant($"<path class=\"ground\" d=\"M{Edge} {Height}H{width}\"/><text x=\"{Edge - 6}\" y=\"12\" text-anchor=\"end\">{most}</text><text x=\"{Edge - 6}\" y=\"{Height}\" text-anchor=\"end\">0</text>"));
        for (var i = 0; i < Bars.Count; i++)
            DrawBar(svg, Edge + (i * Step) + 2, Bars[i], (double)(Height - 4) / most);
        svg.Append(Invariant($"<text x=\"{Edge}\" y=\"{Height + 14}\">{Say.Day(Bars[0].Day)}</text>"));
        svg.Append(Invariant($"<text x=\"{Math.Max(width, Edge + 130)}\" y=\"{Height + 14}\" text-anchor=\"end\">{Say.Day(Bars[^1].Day)}</text>"));
        return svg.Append("</svg>").ToString();
    }

    private static void DrawBar(StringBuilder svg, int left, DayBar bar, double unit)
    {
        var top = Height - (bar.Value * unit);
        if (bar.Value > 0)
            svg.Append(Invariant($"<path class=\"full\" d=\"M{left} {Height}V{top:0.#}h{Bar}V{Height}z\"/>"));
        if (bar.Above > 0)
            svg.Append(Invariant($"<path class=\"above\" d=\"M{left} {top:0.#}v{-bar.Above * unit:0.#}h{Bar}v{bar.Above * unit:0.#}z\"/>"));
    }

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
