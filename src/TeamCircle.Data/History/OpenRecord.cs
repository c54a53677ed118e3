using System.Data;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.People;

namespace TeamCircle.Data.History;

/// <summary>What a caller was let into, or was refused.</summary>
/// <param name="Answer">Absent and refused must look the same to whoever asked.</param>
/// <param name="Scope">What the request may reach; null unless it was granted.</param>
/// <param name="Learner">The learner it is about, where it is about one and was granted.</param>
/// <param name="Ground">What opened it; null unless it was granted.</param>
public sealed record Opened(Opening Answer, Scope? Scope = null, int? Learner = null, Ground? Ground = null);

public enum Opening
{
    Granted,
    Refused,

    /// <summary>It would open to an administrator who says why.</summary>
    NeedsReason,
}

/// <summary>
/// Decides whether a caller may open what an address names, and leaves the record of access in a transaction of its own,
/// committed before anything is shown.
/// </summary>
/// <remarks>
/// The look-up runs over the whole agency, so that a refusal can name the learner it was about; it costs the same for an
/// id that exists and for one that does not.
/// </remarks>
public sealed class OpenRecord(Portal portal)
{
    /// <param name="Page">The page, verb and handler; never an address with an id in it.</param>
    /// <param name="Id">What the address names, as it was typed.</param>
    /// <param name="Reason">Why an administrator looks, where they said so within the hour.</param>
    public sealed record Request(string Page, Subject Subject, string? Id, IReadOnlyList<Ground> Grounds, string? Reason);

    /// <exception cref="Exception">The record of access could not be written: nothing may be shown.</exception>
    public async Task<Opened> RunAsync(Caller caller, Request request, CancellationToken stop)
    {
        await using var work = await portal.OpenAsync(Scope.WholeAgency(caller, "access"), IsolationLevel.ReadCommitted, stop: stop);
        var target = await FindLearner.InAsync(work.Db, caller.AgencyId, request.Subject, request.Id, stop);
        var opened = Judge(caller, request, target);
        if (opened is { Ground: Ground.Reviewer or Ground.AnyReviewer, Scope: { } scope })
            opened = opened with { Scope = scope with { Ground = await AuthorityAsync(work.Db, caller, target!.Learner, stop) } };
        if (opened.Answer is Opening.NeedsReason)
            return opened;
        if (IsRecorded(request.Subject, opened))
        {
            work.Db.Accesses.Add(RowOf(caller, request, opened, target?.Learner));
            await work.Db.SaveChangesAsync(stop);
        }
        await work.CommitAsync(stop);
        return opened;
    }

    private static Opened Judge(Caller caller, Request request, FindLearner.Target? target)
    {
        if (target is null || AccessRules.FirstOpen(request.Grounds, caller, target.Learner) is not { } ground)
            return new Opened(Opening.Refused);
        if (ground is Ground.AdministratorReason && request.Reason is null)
            return new Opened(Opening.NeedsReason);
        var words = ground is Ground.AdministratorReason
            ? $"{Words.Of(caller.Is(Role.Administrator) ? Role.Administrator : Role.Director)}: {request.Reason}"
            : AccessRules.WordsOf(ground, caller, target.Learner);
        var scope = AccessRules.ReachesAgency(ground) ? Scope.WholeAgency(caller, words) : Scope.Of(caller, words);
        return new Opened(Opening.Granted, scope, target.Learner, ground);
    }

    /// <summary>A disclosure is recorded with the authority on which it rests (34 CFR 99.32).</summary>
    private static async Task<string> AuthorityAsync(PortalDb db, Caller caller, int? learner, CancellationToken stop)
    {
        var authorities = await db.Relations.Where(r => r.AgencyId == caller.AgencyId && r.PersonId == caller.PersonId && r.Kind == Relation.Reviewer
            && (learner == null || r.LearnerId == learner) && r.FromDay <= caller.Today && (r.ToDay == null || r.ToDay >= caller.Today))
            .Select(r => r.Ground).Distinct().Order().ToListAsync(stop);
        return authorities.Count == 0 ? Words.Of(Relation.Reviewer) : $"{Words.Of(Relation.Reviewer)}, disclosure: {string.Join("; ", authorities)}";
    }

    private static bool IsRecorded(Subject subject, Opened opened) =>
        opened.Answer is Opening.Refused || subject is not (Subject.None or Subject.Person);

    private static AccessRow RowOf(Caller caller, Request request, Opened opened, int? learner) => new()
    {
        AgencyId = caller.AgencyId,
        PersonId = caller.PersonId,
        Ground = opened.Scope?.Ground ?? "none",
        Page = request.Page,
        LearnerIds = learner is { } one ? [one] : opened.Scope is { Wall: Wall.Person } own ? [.. own.Learners] : [],
        WholeAgency = learner is null && opened.Scope is { Wall: Wall.Agency },
        Refused = opened.Answer is Opening.Refused,
        Address = caller.Address,
    };
}
