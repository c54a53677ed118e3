using Microsoft.AspNetCore.Razor.TagHelpers;
using TeamCircle.Core.Commitments;

namespace TeamCircle.Web.Ui;

/// <summary>A status: the mark, cut from the rail's own cell, and always its words beside it.</summary>
[HtmlTargetElement("status-mark", TagStructure = TagStructure.WithoutEndTag)]
public sealed class StatusMarkTagHelper : TagHelper
{
    private const string Full = "<path class=\"full\" d=\"M2 2H26V14H2z\"/>";
    private const string Part = "<path class=\"full\" d=\"M2 2H13V14H2z\"/>";
    private const string Closed = "<path d=\"M2 2H26V14H2z\"/>";
    private const string Open = "<path d=\"M26 2H2V14H26\"/>";
    private const string Line = "<path d=\"M2 14H26\"/>";

    public Status Status { get; set; }

    /// <summary>Null: the status as the glossary says it.</summary>
    public string? Words { get; set; }

    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        output.TagName = "span";
        output.TagMode = TagMode.StartTagAndEndTag;
        output.Attributes.SetAttribute("class", "status");
        output.Content.AppendHtml("<svg class=\"status-mark\" viewBox=\"0 0 32 16\" width=\"32\" height=\"16\" aria-hidden=\"true\" focusable=\"false\">");
        output.Content.AppendHtml(Draw(Status)).AppendHtml("</svg><span>").Append(Words ?? Say.Status(Status)).AppendHtml("</span>");
    }

    public static string Draw(Status status) => status switch
    {
        Status.NothingDue => Line,
        Status.NothingLeftDue => Line + "<path class=\"hatch\" d=\"M4 14L14 4M10 14L20 4M16 14L26 4\"/>",
        Status.Met => Full + Closed,
        Status.WithinTolerance => "<path class=\"full\" d=\"M2 2H20V14H2z\"/>" + Closed,
        Status.OnPace => Full + "<path d=\"M30 2H2V14H30\"/>",
        Status.OnCourse => Part + Closed + Dot(19.5),
        Status.NotPlanned => Line + Dot(14),
        Status.CatchingUp => Open + Dot(24),
        Status.BelowPace => Part + "<path d=\"M30 2H2V14H30\"/>",
        Status.Behind => Open,
        Status.CannotFit => Open + "<path d=\"M26.5 2V14M30 2V14\"/>",
        Status.NotMet => Closed,
        _ => "<path stroke-dasharray=\"3 2.5\" d=\"M2 2H26V14H2z\"/>",
    };

    private static string Dot(double x) => FormattableString.Invariant($"<circle class=\"dot\" cx=\"{x}\" cy=\"8\" r=\"2.25\"/>");
}
