using Microsoft.AspNetCore.Html;

namespace TeamCircle.Web.Pages.Guide;

/// <summary>One task of a guide: its heading, and the name by which a link leads to it.</summary>
public sealed record GuideTask(string Title, string Anchor);

/// <summary>A heading of the second order with what stands below it.</summary>
public sealed record GuideSection(GuideTask Task, IHtmlContent Body);

/// <summary>One file of docs/guide, ready for a page.</summary>
/// <param name="Title">The file's first heading.</param>
/// <param name="Lead">What stands before the first section.</param>
public sealed record GuideText(string Title, IHtmlContent Lead, IReadOnlyList<GuideSection> Sections)
{
    public IEnumerable<GuideTask> Tasks => Sections.Select(s => s.Task);
}
