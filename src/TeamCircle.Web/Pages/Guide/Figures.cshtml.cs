using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TeamCircle.Core.Guide;

namespace TeamCircle.Web.Pages.Guide;

/// <summary>How every figure is worked out: the rules in words, each with an example that a reader can change.</summary>
/// <remarks>The numbers stand in the address: they are the reader's own, of nobody's record.</remarks>
public sealed class FiguresModel : PageModel
{
    [BindProperty(SupportsGet = true)]
    public CountExample Count { get; set; } = new();

    [BindProperty(SupportsGet = true)]
    public ShortWeekExample ShortWeek { get; set; } = new();

    [BindProperty(SupportsGet = true)]
    public ForecastExample Forecast { get; set; } = new();

    [BindProperty(SupportsGet = true)]
    public WithoutHelpExample WithoutHelp { get; set; } = new();

    [BindProperty(SupportsGet = true)]
    public WaitExample Wait { get; set; } = new();

    [BindProperty(SupportsGet = true)]
    public AimlineExample Aimline { get; set; } = new();

    [BindProperty(SupportsGet = true)]
    public AgreementExample Agreement { get; set; } = new();

    public GuideText Text { get; } = GuideFiles.Find("figures")!;

    /// <summary>The partial view below a heading, by the heading's anchor; null where a rule has no example.</summary>
    public static string? ExampleOf(string anchor) => anchor switch
    {
        "due-given-planned-and-still-to-plan" => "_CountExample",
        "a-week-with-fewer-school-days" => "_ShortWeekExample",
        "how-likely-planned-visits-are-to-be-enough" => "_ForecastExample",
        "without-help-and-the-average-of-prompts" => "_WithoutHelpExample",
        "time-to-respond" => "_WaitExample",
        "the-aimline-the-trend-and-what-they-ask" => "_AimlineExample",
        "agreement-of-two-observers" => "_AgreementExample",
        _ => null,
    };

    /// <summary>Whether an example's numbers can be worked with; else its form says what to mend.</summary>
    /// <param name="example">The name of its property here.</param>
    public bool IsGood(string example) =>
        ModelState.Where(e => e.Key == example || e.Key.StartsWith(example + ".", StringComparison.Ordinal)).All(e => e.Value!.Errors.Count == 0);
}
