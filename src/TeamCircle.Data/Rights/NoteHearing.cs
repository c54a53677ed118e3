using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Rights;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Rights;

/// <summary>Notes that a hearing was asked for after a refusal, and its outcome once there is one (34 CFR 300.619 to 300.621).</summary>
public sealed class NoteHearing(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Request { get; init; }
        public int Version { get; init; }
        public LocalDate? HearingAskedOn { get; init; }
        public LocalDate? HearingEndedOn { get; init; }
        public string? HearingOutcome { get; init; }
    }

    public sealed record Saved(int Request);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(NoteHearing), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await ReadRequests.FindAsync(db, caller, input.Learner, input.Request, stop) is not { } row)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (row is not { Answer: RequestAnswer.Refused, AnsweredOn: { } answered })
            return Outcome<Saved>.Refused("", "A hearing follows a refusal.");
        Problem[] problems = [.. RequestRules.CheckHearing(answered, input.HearingAskedOn, input.HearingEndedOn, input.HearingOutcome, caller.Today)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        db.BeganOn(row, input.Version);
        (row.HearingAskedOn, row.HearingEndedOn) = (input.HearingAskedOn, input.HearingEndedOn);
        row.HearingOutcome = string.IsNullOrWhiteSpace(input.HearingOutcome) ? null : input.HearingOutcome.Trim();
        return Outcome<Saved>.Of(new(row.Id));
    }
}
