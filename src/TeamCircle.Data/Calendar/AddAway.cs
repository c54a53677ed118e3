using System.ComponentModel.DataAnnotations;
using TeamCircle.Core;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Calendar;

/// <summary>Says that a learner is away: visits of their own time in it are called off, and nothing is decided about their minutes.</summary>
public sealed class AddAway(Portal portal)
{
    public sealed record Input
    {
        public int Learner { get; init; }

        [EnumDataType(typeof(AwayReason))]
        public AwayReason? Reason { get; init; }
        public LocalDate? FromDay { get; init; }

        /// <summary>The last day away; null while nobody knows.</summary>
        public LocalDate? UntilDay { get; init; }

        [StringLength(1000)]
        public string? Note { get; init; }
    }

    public sealed record Saved(int Away, AwayEffect Effect);

    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        CalendarRules.MayEnterAway(caller, input.Learner)
            ? await portal.WriteAsync(Scope.Of(caller), Operation.Of(operation, nameof(AddAway), input), db => WorkAsync(db, caller, input, stop), stop)
            : Outcome<Saved>.Refused(Problem.NotFound);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        Problem[] problems = [.. Problems(input, caller.Today)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var away = new AwayRow
        {
            AgencyId = caller.AgencyId,
            LearnerId = input.Learner,
            Reason = input.Reason!.Value,
            FromDay = input.FromDay!.Value,
            UntilDay = input.UntilDay,
            Note = string.IsNullOrWhiteSpace(input.Note) ? null : input.Note.Trim(),
        };
        db.Add(away);
        var effect = await AwayVisits.ApplyAsync(db, away, caller.Today, stop);
        return Outcome<Saved>.Of(new(away.Id, effect));
    }

    private static IEnumerable<Problem> Problems(Input input, LocalDate today)
    {
        if (input.Reason is null)
            yield return new(nameof(Input.Reason), "Choose why.");
        if (input.FromDay is not { } from)
            yield return new(nameof(Input.FromDay), "Choose the first day away.");
        else if (from > today.PlusDays(CalendarRules.MostDaysAhead))
            yield return new(nameof(Input.FromDay), "That day is more than 400 days ahead.");
        else if (input.UntilDay < from)
            yield return new(nameof(Input.UntilDay), "The last day comes before the first.");
    }
}
