using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Learners;

/// <summary>The way to everything that only the learner's case manager writes: plan, services, goals' statements, team.</summary>
internal static class PlanDoor
{
    public static async Task<Outcome<T>> WritePlanAsync<T>(
        this Portal portal, Caller caller, int learner, Operation operation, Func<PortalDb, Task<Outcome<T>>> work, CancellationToken stop) where T : class =>
        caller.Manages(learner)
            ? await portal.WriteAsync(Scope.OfLearner(caller, learner, "case manager of the learner"), operation, work, stop)
            : Outcome<T>.Refused(Problem.NotFound);
}
