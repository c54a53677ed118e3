using System.Globalization;
using Microsoft.AspNetCore.Mvc.Rendering;
using NodaTime;

namespace TeamCircle.Web.Pages.Guide;

/// <summary>What the examples offer to choose from.</summary>
public static class GuideChoices
{
    /// <summary>Monday to Friday, by number.</summary>
    public static IReadOnlyList<SelectListItem> Weekdays { get; } =
        [.. Enum.GetValues<IsoDayOfWeek>().Where(d => d is > IsoDayOfWeek.None and <= IsoDayOfWeek.Friday).Select(d => new SelectListItem($"{d}", ((int)d).ToString(CultureInfo.InvariantCulture)))];
}
