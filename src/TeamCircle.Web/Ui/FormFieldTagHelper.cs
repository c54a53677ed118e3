using System.Globalization;
using Microsoft.AspNetCore.Html;
using Microsoft.AspNetCore.Mvc.Rendering;
using Microsoft.AspNetCore.Mvc.ViewFeatures;
using Microsoft.AspNetCore.Razor.TagHelpers;
using NodaTime;
using NodaTime.Text;
using TeamCircle.Core.Account;
using TeamCircle.Core.Family;

namespace TeamCircle.Web.Ui;

/// <summary>
/// One field of a form: label, hint, problem and input, tied together. <c>type</c> is an input's type, or "area" for
/// several lines, "select" or "choices" (one button each) with <c>items</c>, "check" for yes or no.
/// </summary>
/// <remarks>What was typed is shown again as it was typed, also where it could not be read; but for a password.</remarks>
[HtmlTargetElement("form-field", Attributes = "asp-for", TagStructure = TagStructure.NormalOrSelfClosing)]
public sealed class FormFieldTagHelper : TagHelper
{
    [HtmlAttributeName("asp-for")]
    public ModelExpression For { get; set; } = null!;

    public string Label { get; set; } = "";

    /// <summary>A short sentence under the label.</summary>
    public string? Hint { get; set; }

    /// <summary>Null: by the value's type (date, time, number, check), else text.</summary>
    public string? Type { get; set; }

    public IEnumerable<SelectListItem>? Items { get; set; }

    /// <summary>Says so beside the label.</summary>
    public bool Optional { get; set; }

    public int Rows { get; set; } = 4;

    [ViewContext, HtmlAttributeNotBound]
    public ViewContext View { get; set; } = null!;

    private Language Language => View.ViewData["Language"] is "es" ? Language.Spanish : Language.English;

    private string Name => View.ViewData.TemplateInfo.GetFullHtmlFieldName(For.Name);

    private string Id => TagBuilder.CreateSanitizedId(Name, "_");

    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        var type = Type ?? TypeOf(For.ModelExplorer.ModelType);
        var problem = View.ModelState.TryGetValue(Name, out var entry) && entry.Errors.Count > 0 ? ProblemWords.In(Language, entry.Errors[0].ErrorMessage) : null;
        var inner = output.Attributes.ToList();
        output.Attributes.Clear();
        output.TagMode = TagMode.StartTagAndEndTag;
        output.TagName = type == "choices" ? "fieldset" : "div";
        output.Attributes.SetAttribute("class", problem is null ? "field" : "field has-problem");
        var parts = output.Content;
        if (type == "check")
            parts.AppendHtml(Check(problem, inner)).AppendHtml(Words(problem));
        else
            parts.AppendHtml(Heading(type)).AppendHtml(Words(problem)).AppendHtml(Input(type, problem, inner));
    }

    private TagBuilder Heading(string type)
    {
        var heading = new TagBuilder(type == "choices" ? "legend" : "label");
        if (type != "choices")
            heading.Attributes["for"] = Id;
        heading.InnerHtml.Append(Label);
        if (Optional)
            heading.InnerHtml.AppendHtml(" <span class=\"aside\">").Append(FamilyGlossary.Optional.In(Language)).AppendHtml("</span>");
        return heading;
    }

    private HtmlContentBuilder Words(string? problem)
    {
        var words = new HtmlContentBuilder();
        if (Hint is not null)
            words.AppendHtml(Paragraph("hint", Hint));
        if (problem is not null)
            words.AppendHtml(Paragraph("problem", problem));
        return words;
    }

    private TagBuilder Paragraph(string part, string words)
    {
        var paragraph = new TagBuilder("p") { Attributes = { ["class"] = part, ["id"] = $"{Id}-{part}" } };
        paragraph.InnerHtml.Append(words);
        return paragraph;
    }

    private TagBuilder Input(string type, string? problem, List<TagHelperAttribute> inner) => type switch
    {
        "select" => Select(problem, inner),
        "choices" => Choices(problem),
        "area" => Area(problem, inner),
        _ => Tie(new TagBuilder("input") { TagRenderMode = TagRenderMode.SelfClosing, Attributes = { ["type"] = type, ["value"] = type == "password" ? "" : Typed() } }, problem, inner),
    };

    private TagBuilder Area(string? problem, List<TagHelperAttribute> inner)
    {
        var area = Tie(new TagBuilder("textarea") { Attributes = { ["rows"] = Rows.ToString(CultureInfo.InvariantCulture) } }, problem, inner);
        area.InnerHtml.Append("\n" + Typed()); // the first line break of a textarea is not part of its text
        return area;
    }

    private TagBuilder Select(string? problem, List<TagHelperAttribute> inner)
    {
        var select = Tie(new TagBuilder("select"), problem, inner);
        var typed = Typed();
        foreach (var group in (Items ?? []).GroupBy(i => i.Group?.Name))
        {
            var options = group.Key is null ? select : new TagBuilder("optgroup") { Attributes = { ["label"] = group.Key } };
            foreach (var item in group)
                options.InnerHtml.AppendHtml(Option(item, item.Value == typed));
            if (group.Key is not null)
                select.InnerHtml.AppendHtml(options);
        }
        return select;
    }

    private static TagBuilder Option(SelectListItem item, bool isChosen)
    {
        var option = new TagBuilder("option") { Attributes = { ["value"] = item.Value } };
        if (isChosen)
            option.Attributes["selected"] = "selected";
        option.InnerHtml.Append(item.Text);
        return option;
    }

    private TagBuilder Choices(string? problem)
    {
        var list = new TagBuilder("div") { Attributes = { ["class"] = "choices" } };
        var (typed, number) = (Typed(), 0);
        foreach (var item in Items ?? [])
        {
            var id = number++ == 0 ? Id : $"{Id}-{number}";
            var radio = Tie(new TagBuilder("input") { TagRenderMode = TagRenderMode.SelfClosing, Attributes = { ["type"] = "radio", ["value"] = item.Value } }, problem, []);
            radio.Attributes["id"] = id;
            if (item.Value == typed)
                radio.Attributes["checked"] = "checked";
            var label = new TagBuilder("label") { Attributes = { ["for"] = id } };
            label.InnerHtml.AppendHtml(radio).Append(" " + item.Text);
            list.InnerHtml.AppendHtml(label);
        }
        return list;
    }

    private TagBuilder Check(string? problem, List<TagHelperAttribute> inner)
    {
        var box = Tie(new TagBuilder("input") { TagRenderMode = TagRenderMode.SelfClosing, Attributes = { ["type"] = "checkbox", ["value"] = "true" } }, problem, inner);
        if (Typed().Split(',')[0].Equals("true", StringComparison.OrdinalIgnoreCase))
            box.Attributes["checked"] = "checked";
        var label = new TagBuilder("label") { Attributes = { ["for"] = Id, ["class"] = "check" } };
        label.InnerHtml.AppendHtml(box).Append(" " + Label);
        return label;
    }

    private TagBuilder Tie(TagBuilder input, string? problem, List<TagHelperAttribute> inner)
    {
        input.Attributes["id"] = Id;
        input.Attributes["name"] = Name;
        var tied = string.Join(' ', new[] { Hint is null ? null : $"{Id}-hint", problem is null ? null : $"{Id}-problem" }.OfType<string>());
        if (tied.Length > 0)
            input.Attributes["aria-describedby"] = tied;
        if (problem is not null)
            input.Attributes["aria-invalid"] = "true";
        foreach (var attribute in inner)
            input.Attributes[attribute.Name] = attribute.Value?.ToString();
        return input;
    }

    private string Typed() =>
        View.ModelState.TryGetValue(Name, out var entry) && entry.AttemptedValue is { } attempted ? attempted : Format(For.Model);

    private static string Format(object? value) => value switch
    {
        null => "",
        LocalDate date => LocalDatePattern.Iso.Format(date),
        LocalTime time => LocalTimePattern.CreateWithInvariantCulture("HH:mm").Format(time),
        IFormattable other => other.ToString(null, CultureInfo.InvariantCulture),
        _ => value.ToString() ?? "",
    };

    private static string TypeOf(Type type)
    {
        var bare = Nullable.GetUnderlyingType(type) ?? type;
        return bare == typeof(LocalDate) ? "date"
            : bare == typeof(LocalTime) ? "time"
            : bare == typeof(bool) ? "check"
            : bare == typeof(int) ? "number" : "text";
    }
}
