using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Routines;

/// <summary>Writes down whether a routine was practised at home, as the people there told it to somebody of the team. It gives no minutes of a service.</summary>
public sealed class LogAtHome(Portal portal)
{
    /// <summary>What is told later than this is no log any more (our number).</summary>
    public const int MostDaysBack = 60;

    public sealed record Input
    {
        public int Learner { get; init; }
        public int Routine { get; init; }

        /// <summary>Today or a day before.</summary>
        public LocalDate? OnDay { get; init; }

        /// <summary>Who practised, in words.</summary>
        [StringLength(100, ErrorMessage = "Say in under 100 letters who practised.")]
        public string? Who { get; init; }

        public HomeAnswer Answer { get; init; }

        /// <summary>In the words of who was there.</summary>
        [StringLength(2000, ErrorMessage = "Say in under 2000 letters how it went.")]
        public string? HowItWent { get; init; }
    }

    public sealed record Saved(int Log, LocalDate OnDay);

    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        ReadRoutines.MayWrite(caller, input.Learner)
            ? await portal.WriteAsync(Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(LogAtHome), input), db => WorkAsync(db, caller, input, stop), stop)
            : Outcome<Saved>.Refused(Problem.NotFound);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        var (agency, learner) = (caller.AgencyId, input.Learner);
        if (!await db.Routines.AnyAsync(r => r.AgencyId == agency && r.LearnerId == learner && r.Id == input.Routine, stop))
            return Outcome<Saved>.Refused(Problem.NotFound);
        Problem[] problems = [.. Problems(input, caller.Today)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var row = new HomeLogRow
        {
            AgencyId = agency,
            LearnerId = learner,
            RoutineId = input.Routine,
            OnDay = input.OnDay!.Value,
            Who = input.Who!.Trim(),
            Answer = input.Answer,
            HowItWent = string.IsNullOrWhiteSpace(input.HowItWent) ? null : input.HowItWent.Trim(),
        };
        db.Add(row);
        await db.SaveChangesAsync(stop);
        return Outcome<Saved>.Of(new(row.Id, row.OnDay));
    }

    private static IEnumerable<Problem> Problems(Input input, LocalDate today)
    {
        if (input.OnDay is not { } day)
            yield return new(nameof(Input.OnDay), "Give the day.");
        else if (day > today)
            yield return new(nameof(Input.OnDay), "That day is still to come. Plan it instead.");
        else if (day < today.PlusDays(-MostDaysBack))
            yield return new(nameof(Input.OnDay), "That day is more than 60 days ago.");
        if (string.IsNullOrWhiteSpace(input.Who))
            yield return new(nameof(Input.Who), "Say who practised, such as her mother.");
        if (!Enum.IsDefined(input.Answer))
            yield return new(nameof(Input.Answer), "Choose how it was.");
    }
}
