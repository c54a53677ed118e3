using System.Data;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Commitments;

namespace TeamCircle.Data.Commitments;

/// <summary>One status that a change of the calendar or of the policy would change.</summary>
/// <param name="Code">The agency's code of the service or goal.</param>
/// <param name="Owner">Whose probes, where each owner of a goal has a commitment of their own.</param>
/// <param name="OwedBefore">Minutes or probes owed in the windows that close in the period.</param>
public sealed record StatusChange(
    string Learner, string Code, string? Owner, string Period, Status Before, Status After, int OwedBefore, int OwedAfter);

/// <summary>What a change would do, before anybody decides on it.</summary>
/// <param name="Statuses">How many statuses would change.</param>
/// <param name="Amounts">How many services and probe commitments would owe another amount in some period.</param>
/// <param name="First">The first of the changed statuses, by period and learner.</param>
public sealed record StatusPreview(int Statuses, int Amounts, IReadOnlyList<StatusChange> First)
{
    /// <summary>How many are listed.</summary>
    public const int Most = 200;

    /// <summary>
    /// Makes the change in a transaction that is taken back, and compares every status in every reporting period before and
    /// after: what is shown is what saving does, by the same code.
    /// </summary>
    internal static async Task<Outcome<StatusPreview>> RunAsync<T>(
        Portal portal, Scope scope, LocalDate today, Func<PortalDb, Task<Outcome<T>>> change, CancellationToken stop) where T : class
    {
        await using var work = await portal.OpenAsync(scope, IsolationLevel.RepeatableRead, null, stop);
        var before = await AllStandings.ReadAsync(work.Db, RowFilter.Of(scope), today, stop);
        try
        {
            var outcome = await change(work.Db);
            if (outcome.Value is null)
                return Outcome<StatusPreview>.Refused(outcome.Problems);
            await work.Db.SaveChangesAsync(stop);
        }
        catch (DbUpdateConcurrencyException)
        {
            return Outcome<StatusPreview>.Refused(Refusals.ChangedMeanwhile);
        }
        catch (Exception e) when (Refusals.Of(e) is not null)
        {
            return Outcome<StatusPreview>.Refused(Refusals.Of(e)!);
        }
        var after = await AllStandings.ReadAsync(work.Db, RowFilter.Of(scope), today, stop);
        var names = await work.Db.Learners.Where(l => l.AgencyId == scope.AgencyId).ToDictionaryAsync(l => l.Id, l => l.Name, stop);
        var owners = await work.Db.People.Where(p => p.AgencyId == scope.AgencyId).ToDictionaryAsync(p => p.Id, p => p.Name, stop);
        return Outcome<StatusPreview>.Of(Compare(before, after, names, owners));
    }

    private static StatusPreview Compare(AllStandings before, AllStandings after, Dictionary<int, string> names, Dictionary<int, string> owners)
    {
        var (statuses, amounts) = (0, new HashSet<int>());
        var first = new List<StatusChange>();
        foreach (var (period, line) in before.Periods.Index().SelectMany(p => before.Lines.Index().Select(l => (p, l))))
        {
            var (was, becomes) = (before.Of(period.Index, line.Index), after.Of(period.Index, line.Index));
            if (was != becomes with { Status = was.Status })
                amounts.Add(line.Index);
            if (was.Status == becomes.Status || ++statuses > Most)
                continue;
            var owner = line.Item.OwnerId is { } id ? owners[id] : null;
            first.Add(new(names[line.Item.LearnerId], line.Item.Code, owner, period.Item.Name, was.Status, becomes.Status, was.Owed, becomes.Owed));
        }
        return new(statuses, amounts.Count, first);
    }
}
