using System.Globalization;
using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Core.Learners;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Commitments;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Commitments;

/// <summary>What an audit can be narrowed to: only what occurs in it.</summary>
/// <remarks>A list of thousands of names is most of a page and nobody reads it: above <see cref="MostListed"/> it holds the chosen one alone, and the
/// page leads to where one learner or person is found.</remarks>
public sealed class AuditChoices(Audit audit, IReadOnlyList<PeriodRow> periods, AuditFilter filter)
{
    public const int MostListed = 300;

    private readonly List<int> _learners = [.. audit.Lines.Select(l => l.Line.LearnerId).Distinct()];

    /// <summary>Whether there are more learners or people than are listed.</summary>
    public bool AreTooMany => Math.Max(_learners.Count, audit.Providers.Count) > MostListed;

    public IEnumerable<SelectListItem> Periods => periods.Select(p => new SelectListItem(p.Name, Number(p.Id)));

    public static IEnumerable<SelectListItem> Groups =>
        [new("Learner", nameof(AuditBy.Learner)), new("Service", nameof(AuditBy.Service)), new("Provider", nameof(AuditBy.Provider))];

    public IEnumerable<SelectListItem> Statuses => Any("Any status").Concat(
        audit.Lines.Select(l => l.Balance.Status).Distinct().Order().Select(s => new SelectListItem(Say.Begin(Say.Status(s)), s.ToString())));

    public IEnumerable<SelectListItem> Disciplines => Any("Any discipline").Concat(
        audit.Lines.Select(l => l.Line.Service?.Discipline).OfType<Discipline>().Distinct().Order()
            .Select(d => new SelectListItem(Say.Discipline(d), d.ToString())));

    public IEnumerable<SelectListItem> People => Any("Anybody").Concat(
        Listed([.. audit.Providers.Select(p => p.PersonId)], filter.Person).Select(id => new SelectListItem(audit.Names.Person(id), Number(id))));

    public IEnumerable<SelectListItem> Learners => Any("All learners").Concat(
        Listed(_learners, filter.Learner).Select(id => audit.Names.Learners[id])
            .OrderBy(l => l.Name, StringComparer.CurrentCulture).Select(l => new SelectListItem(l.Name, Number(l.Id))));

    private static IEnumerable<int> Listed(List<int> all, int? chosen) => all.Count <= MostListed ? all : all.Where(id => id == chosen);

    private static IEnumerable<SelectListItem> Any(string words) => [new(words, "")];

    private static string Number(int id) => id.ToString(CultureInfo.InvariantCulture);
}
