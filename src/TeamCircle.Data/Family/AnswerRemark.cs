using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Family;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Family;

/// <summary>Answers a family's remark with a word that the family sees. What is on record stays as it is: it is corrected where it stands.</summary>
public sealed class AnswerRemark(Portal portal, TimeProvider clock)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Remark { get; init; }
        public int Version { get; init; }
        public string? Answer { get; init; }
    }

    public sealed record Saved(int Remark);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(AnswerRemark), input), db => WorkAsync(db, caller, input, stop), stop);

    private async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var found = await (
            from r in db.FamilyRemarks
            where r.AgencyId == caller.AgencyId && r.LearnerId == input.Learner && r.Id == input.Remark
            select new { Row = r, Provider = db.Visits.Where(v => v.AgencyId == r.AgencyId && v.Id == r.VisitId).Select(v => (int?)v.ProviderId).FirstOrDefault() })
            .SingleOrDefaultAsync(stop);
        if (found is null || !RemarkRules.MayAnswer(caller, input.Learner, found.Provider))
            return Outcome<Saved>.Refused(Problem.NotFound);
        Problem[] problems = [.. RemarkRules.CheckAnswer(input.Answer)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        db.BeganOn(found.Row, input.Version);
        (found.Row.Answer, found.Row.AnsweredBy, found.Row.AnsweredAt) = (input.Answer!.Trim(), caller.PersonId, EnterRemark.Now(clock));
        return Outcome<Saved>.Of(new(found.Row.Id));
    }
}
