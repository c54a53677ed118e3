using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Learners;

/// <summary>The way to everything that only the learner's case manager writes: plan, services, goals' statements, team.</summary>
internal static class PlanDoor
{
    /// <param name="why">The reason, where no row of its own keeps it: it goes into the trail of changes with the ground.</param>
    public static async Task<Outcome<T>> WritePlanAsync<T>(
        this Portal portal, Caller caller, int learner, Operation operation, Func<PortalDb, Task<Outcome<T>>> work, CancellationToken stop,
        string? why = null) where T : class =>
        caller.Manages(learner)
            ? await portal.WriteAsync(Scope.OfLearner(caller, learner, why is null ? Ground : $"{Ground}: {why.Trim()}"), operation, work, stop)
            : Outcome<T>.Refused(Problem.NotFound);

    private const string Ground = "case manager of the learner";
}
