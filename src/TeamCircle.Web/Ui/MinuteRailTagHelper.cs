using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Razor.TagHelpers;
using NodaTime;

namespace TeamCircle.Web.Ui;

/// <summary>
/// Draws a <see cref="Rail"/>: a cell is filled from the left by what was given, hatched where decided not owed, ticked
/// below where a make-up paid, open on the right where something lacks, dotted where visits to come will bring it; a
/// hairline for today. The same in words follows, for those who do not see it.
/// </summary>
[HtmlTargetElement("minute-rail", TagStructure = TagStructure.WithoutEndTag)]
public sealed class MinuteRailTagHelper : TagHelper
{
    internal const double Width = 264;
    private const double Top = 4;
    private const double Base = 16;
    private const double Height = 24;
    private const double HatchStep = 4;

    public Rail Rail { get; set; } = null!;

    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        output.TagName = null;
        output.Content.SetHtmlContent(Draw(Rail));
        output.Content.AppendHtml("<span class=\"unseen\">").Append(RailWords.Of(Rail)).AppendHtml("</span>");
    }

    public static string Draw(Rail rail)
    {
        var svg = new StringBuilder();
        svg.Append(Invariant($"<svg class=\"rail-strip\" viewBox=\"0 0 {Width} {Height}\" width=\"{Width}\" height=\"{Height}\" aria-hidden=\"true\" focusable=\"false\">"));
        foreach (var cell in rail.Cells)
            DrawCell(svg, rail, cell);
        if (rail.Today >= rail.First && rail.Today <= rail.Last)
            svg.Append(Invariant($"<path class=\"today\" d=\"M{X(rail, rail.Today) + Scale(rail) / 2:0.#} 0V{Height}\"/>"));
        return svg.Append("</svg>").ToString();
    }

    private static void DrawCell(StringBuilder svg, Rail rail, RailCell cell)
    {
        var (left, right) = (X(rail, Later(cell.First, rail.First)) + 1.5, X(rail, Earlier(cell.Last, rail.Last).PlusDays(1)) - 1.5);
        if (right <= left)
            return;
        var later = cell.IsLater(rail.Today) ? " later" : "";
        if (cell.Owed == 0)
        {
            svg.Append(Invariant($"<path class=\"base{later}\" d=\"M{left:0.#} {Base}H{right:0.#}\"/>"));
            return;
        }
        var given = left + (right - left) * Math.Min(1, (double)Math.Min(cell.Given, cell.Due) / cell.Owed);
        var decided = given + (right - left) * cell.NotOwed / cell.Owed;
        if (given > left)
            svg.Append(Invariant($"<path class=\"full\" d=\"M{left:0.#} {Top}H{given:0.#}V{Base}H{left:0.#}z\"/>"));
        Hatch(svg, given, decided);
        svg.Append(Invariant($"<path class=\"cell{later}\" d=\"M{right:0.#} {Top}H{left:0.#}V{Base}H{right:0.#}{(cell.Open == 0 ? "z" : "")}\"/>"));
        if (cell.IsPlanned)
            svg.Append(Invariant($"<circle class=\"dot{later}\" cx=\"{Math.Max(right - 5, (decided + right) / 2):0.#}\" cy=\"{(Top + Base) / 2}\" r=\"2\"/>"));
        if (cell.Paid > 0)
            svg.Append(Invariant($"<path class=\"tick\" d=\"M{(left + right) / 2:0.#} {Base + 3}V{Height - 1}\"/>"));
    }

    // Slanting strokes, cut where the hatched stretch ends: a pattern would need an id that is unique on the page.
    private static void Hatch(StringBuilder svg, double from, double to)
    {
        if (to <= from)
            return;
        svg.Append("<path class=\"hatch\" d=\"");
        for (var foot = from - (Base - Top) + HatchStep / 2; foot < to; foot += HatchStep)
        {
            var (start, end) = (Math.Max(foot, from), Math.Min(foot + Base - Top, to));
            if (end > start)
                svg.Append(Invariant($"M{start:0.#} {Base - (start - foot):0.#}L{end:0.#} {Base - (end - foot):0.#}"));
        }
        svg.Append("\"/>");
    }

    private static double Scale(Rail rail) => Width / (Period.DaysBetween(rail.First, rail.Last) + 1);

    private static double X(Rail rail, LocalDate day) => Period.DaysBetween(rail.First, day) * Scale(rail);

    private static LocalDate Later(LocalDate one, LocalDate other) => one > other ? one : other;

    private static LocalDate Earlier(LocalDate one, LocalDate other) => one < other ? one : other;

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
