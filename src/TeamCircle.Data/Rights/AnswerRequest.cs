using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Rights;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Rights;

/// <summary>Notes how a request was answered. Amending itself happens where the entry stands, as a correction that keeps what was there before.</summary>
public sealed class AnswerRequest(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }
        public int Request { get; init; }
        public int Version { get; init; }
        public RequestAnswer? Answer { get; init; }
        public LocalDate? AnsweredOn { get; init; }

        /// <summary>What was shown or copied, what was amended, or why it was refused.</summary>
        public string? Words { get; init; }

        /// <summary>When the parent was told of the right to a hearing.</summary>
        public LocalDate? NoticeOn { get; init; }
    }

    public sealed record Saved(int Request);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) => portal.WriteAsync(
        Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(AnswerRequest), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await ReadRequests.FindAsync(db, caller, input.Learner, input.Request, stop) is not { } row)
            return Outcome<Saved>.Refused(Problem.NotFound);
        if (row.Answer is not null)
            return Outcome<Saved>.Refused("", "It is answered already.");
        Problem[] problems = [.. RequestRules.CheckAnswer(row.Kind, row.ReceivedOn, input.Answer, input.Words, input.AnsweredOn, input.NoticeOn, caller.Today)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        db.BeganOn(row, input.Version);
        (row.Answer, row.AnsweredOn, row.AnsweredBy, row.AnswerWords) = (input.Answer, input.AnsweredOn, caller.PersonId, input.Words!.Trim());
        row.NoticeOn = input.NoticeOn;
        return Outcome<Saved>.Of(new(row.Id));
    }
}
