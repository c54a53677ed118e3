using System.Globalization;
using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Web.Pages.Learners;

namespace TeamCircle.Web.Ui;

/// <summary>What the caseload can be narrowed to: only what occurs in it.</summary>
public sealed class CaseloadChoices(CaseloadModel page)
{
    public IEnumerable<SelectListItem> Statuses => All("any status").Concat(
        page.Standings.Lines.Select(l => l.Balance.Status).Distinct().Order().Select(s => new SelectListItem(Say.Begin(Say.Status(s)), s.ToString())));

    public IEnumerable<SelectListItem> Disciplines => All("any discipline").Concat(
        page.Standings.Lines.Select(l => l.Line.Service?.Discipline).OfType<Core.Learners.Discipline>().Distinct().Order()
            .Select(d => new SelectListItem(Say.Discipline(d), d.ToString())));

    public IEnumerable<SelectListItem> People => All("anybody").Concat(
        page.Standings.Lines.SelectMany(l => l.Line.Named).Select(n => n.PersonId).Distinct()
            .Where(page.Caseload.Names.People.ContainsKey).OrderBy(p => page.Caseload.Names.People[p], StringComparer.OrdinalIgnoreCase)
            .Select(p => new SelectListItem(page.Caseload.Names.People[p], p.ToString(CultureInfo.InvariantCulture))));

    private static IEnumerable<SelectListItem> All(string words) => [new(Say.Begin(words), "")];
}
