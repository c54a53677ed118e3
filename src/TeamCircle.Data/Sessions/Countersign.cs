using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Sessions;

/// <summary>Countersigns what an assistant logged: from then on its minutes count, where the service counts an assistant's.</summary>
public sealed class Countersign(Portal portal, TimeProvider clock)
{
    public sealed record Input(Guid Session);

    /// <param name="Credited">Minutes that count from now on.</param>
    public sealed record Saved(Guid Visit, int Credited);

    /// <summary>Refused with field "Version" where the entry was signed, corrected or taken back meanwhile, and where its period is closed.</summary>
    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(Scope.Of(caller), Operation.Of(operation, nameof(Countersign), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var found = await AssistantsEntry.LockAsync(db, caller, input.Session, stop);
        if (found.Value is not { } session)
            return Outcome<Saved>.Refused(found.Problems);
        var facts = await SessionFacts.ReadAsync(db, caller.AgencyId, [session.LearnerId], clock, stop);
        var service = facts.Service(session.ServiceId)!;
        // As it was on the day of the visit: an assistant who has since joined the team was one then.
        var giver = facts.GiverOf(service, session.ProviderId, session.OnDay) with { As = Relation.Assistant };
        session.Withheld = session.Outcome == VisitOutcome.Given ? giver.Withholds(isCountersigned: true) : null;
        session.Credited = session.Withheld is null ? SessionCredit.Of(LoggedVisit.Entry(session), service.CoTreatment) : 0;
        (session.CountersignedBy, session.CountersignedAt, session.SentBackWhy) = (caller.PersonId, Instant.FromDateTimeOffset(clock.GetUtcNow()), null);
        return Outcome<Saved>.Of(new(session.VisitId, session.Credited));
    }
}
