using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.People;

/// <summary>The roles that an administrator may give.</summary>
public static class RoleChoice
{
    public static IReadOnlyList<SelectListItem> All { get; } =
        [.. new[] { Role.Provider, Role.CaseManager, Role.Administrator, Role.Director, Role.Family }.Select(r => new SelectListItem(Say.Begin(Words.Of(r)), r.ToString()))];
}
