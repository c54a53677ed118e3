using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.People;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Devices;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Calendar;

/// <summary>Changes the agency's policy from a reporting period on that has not begun.</summary>
public sealed class ChangePolicy(Portal portal)
{
    public sealed class Input
    {
        public LocalDate? FromDay { get; set; }
        public ShortWindow ShortWindow { get; set; }
        public Surplus Surplus { get; set; }
        public int? TolerancePercent { get; set; } = Policy.Default.TolerancePercent;
        public int? SessionShare { get; set; } = Policy.Default.SessionShare;
        public string? Words { get; set; }
        public string? WrittenIn { get; set; }
        public string? Reason { get; set; }
        public int? SecondPerson { get; set; }

        internal PolicyEntry Entry => new(
            FromDay, new(ShortWindow, Surplus, TolerancePercent ?? -1, SessionShare ?? 0), Words, WrittenIn, Reason, SecondPerson);
    }

    public sealed record Saved(LocalDate FromDay);

    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        MayChange(caller)
            ? await portal.WriteAsync(Scope.WholeAgency(caller, "the agency's policy"), Operation.Of(operation, nameof(ChangePolicy), input),
                db => WorkAsync(db, caller, input, stop), stop)
            : Outcome<Saved>.Refused(Problem.NotFound);

    /// <summary>What saving would do to the statuses; reason, words and second person may still be missing.</summary>
    public async Task<Outcome<StatusPreview>> PreviewAsync(Caller caller, Input input, CancellationToken stop = default) =>
        MayChange(caller)
            ? await StatusPreview.RunAsync(portal, Scope.WholeAgency(caller, "the agency's policy"), caller.Today, async db =>
            {
                var problems = (await CheckAsync(db, caller, input, stop)).Where(p => p.Field is nameof(input.FromDay) or nameof(input.TolerancePercent) or nameof(input.SessionShare));
                return problems.Any() ? Outcome<Saved>.Refused([.. problems]) : await StoreAsync(db, caller, input, stop);
            }, stop)
            : Outcome<StatusPreview>.Refused(Problem.NotFound);

    internal static bool MayChange(Caller caller) => caller.Is(Role.Administrator) || caller.Is(Role.Director);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var problems = await CheckAsync(db, caller, input, stop);
        return problems.Count > 0 ? Outcome<Saved>.Refused(problems) : await StoreAsync(db, caller, input, stop);
    }

    private static async Task<Outcome<Saved>> StoreAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (!await db.Policies.AnyAsync(p => p.AgencyId == caller.AgencyId, stop))
            db.Add(UntilNow(caller));
        foreach (var earlier in await db.Policies.Where(p => p.AgencyId == caller.AgencyId && p.FromDay == input.FromDay).ToListAsync(stop))
            (earlier.Live, earlier.TakenBackReason) = (false, input.Reason?.Trim());
        db.Add(Row(caller, input));
        return Outcome<Saved>.Of(new(input.FromDay!.Value));
    }

    internal static async Task<IReadOnlyList<Problem>> CheckAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var starts = await db.Periods.Where(p => p.AgencyId == caller.AgencyId).Select(p => p.StartDay).ToListAsync(stop);
        var mayAgree = await MayAgreeAsync(db, caller, stop);
        return [.. PolicyRules.Check(input.Entry, new(caller.Today, starts.ToHashSet(), mayAgree.Select(p => p.Id).ToHashSet()))];
    }

    /// <summary>Who may be the second person, by name.</summary>
    internal static async Task<IReadOnlyList<NamedId>> MayAgreeAsync(PortalDb db, Caller caller, CancellationToken stop) =>
        await db.People
            .Where(p => p.AgencyId == caller.AgencyId && p.EndedAt == null && p.Id != caller.PersonId && db.PersonRoles.Any(r =>
                r.AgencyId == p.AgencyId && r.PersonId == p.Id && r.FromDay <= caller.Today && (r.ToDay == null || r.ToDay >= caller.Today)
                && (r.Role == Role.Director || r.Role == Role.Administrator || r.Role == Role.CaseManager)))
            .OrderBy(p => p.Name).Select(p => new NamedId(p.Id, p.Name)).ToListAsync(stop);

    internal static PolicyRow Row(Caller caller, Input input) => new()
    {
        AgencyId = caller.AgencyId,
        FromDay = input.FromDay!.Value,
        ShortWindow = input.ShortWindow,
        Surplus = input.Surplus,
        TolerancePercent = input.TolerancePercent!.Value,
        SessionShare = input.SessionShare!.Value,
        PolicyWords = input.Words?.Trim(),
        WrittenIn = input.WrittenIn?.Trim(),
        Reason = input.Reason?.Trim(),
        SecondPersonId = input.SecondPerson,
    };

    // The earliest policy holds for everything before it too: without this one the new policy would reach back.
    private static PolicyRow UntilNow(Caller caller) => new()
    {
        AgencyId = caller.AgencyId,
        FromDay = new LocalDate(1900, 1, 1),
        ShortWindow = Policy.Default.ShortWindow,
        Surplus = Policy.Default.Surplus,
        TolerancePercent = Policy.Default.TolerancePercent,
        SessionShare = Policy.Default.SessionShare,
        Reason = "Held until the agency set a policy of its own.",
    };
}
