using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Closing;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Closing;

/// <summary>Enters an award of compensatory services as a paper from outside says it. Only the learner's case manager enters it; nothing is worked out.</summary>
public sealed class AddAward(Portal portal)
{
    public sealed class Input
    {
        public int Learner { get; set; }

        [EnumDataType(typeof(AwardSource))]
        public AwardSource? Source { get; set; }

        [Required(ErrorMessage = "Name the paper, and where in it the award stands.")]
        [StringLength(500)]
        public string? Paper { get; set; }

        [Required(ErrorMessage = "Say how much was awarded.")]
        [Range(1, 100_000, ErrorMessage = "An award is one minute or session at least.")]
        public int? Amount { get; set; }

        [EnumDataType(typeof(AwardUnit))]
        public AwardUnit Unit { get; set; }

        [EnumDataType(typeof(Discipline))]
        public Discipline? Discipline { get; set; }

        /// <summary>Null: any service of the discipline.</summary>
        public int? ServiceId { get; set; }

        /// <summary>Empty: whoever may give the service.</summary>
        public int[] MayGive { get; set; } = [];
        public LocalDate? FromDay { get; set; }
        public LocalDate? UntilDay { get; set; }
    }

    public sealed record Saved(int Award);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteAsync(Scope.Of(caller), Operation.Of(operation, nameof(AddAward), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (!caller.IsStaff || !caller.Manages(input.Learner))
            return Outcome<Saved>.Refused(Problem.NotFound);
        var services = await db.Services.Where(s => s.AgencyId == caller.AgencyId && s.LearnerId == input.Learner)
            .Select(s => new { s.Id, s.Discipline }).ToListAsync(stop);
        var discipline = input.ServiceId is { } service ? services.Find(s => s.Id == service)?.Discipline : input.Discipline;
        Problem[] problems = [.. Problems(input, discipline, services.Select(s => s.Discipline))];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        var row = new AwardRow
        {
            AgencyId = caller.AgencyId,
            LearnerId = input.Learner,
            Source = input.Source!.Value,
            Paper = input.Paper!.Trim(),
            Amount = input.Amount!.Value,
            Unit = input.Unit,
            Discipline = discipline!.Value,
            ServiceId = input.ServiceId,
            MayGive = [.. input.MayGive.Distinct()],
            FromDay = input.FromDay!.Value,
            UntilDay = input.UntilDay,
        };
        db.Add(row);
        await db.SaveChangesAsync(stop);
        return Outcome<Saved>.Of(new(row.Id));
    }

    private static IEnumerable<Problem> Problems(Input input, Discipline? discipline, IEnumerable<Discipline> given)
    {
        if (input.Source is null)
            yield return new(nameof(input.Source), "Say who awarded it.");
        if (discipline is not { } known)
            yield return new(nameof(input.ServiceId), "Choose the service by which it is given.");
        else if (!given.Contains(known))
            yield return new(nameof(input.ServiceId), "The plan has no such service by which visits could be given. Add the service first.");
        if (input.FromDay is null)
            yield return new(nameof(input.FromDay), "Say from when it may be given.");
        if (input.UntilDay < input.FromDay)
            yield return new(nameof(input.UntilDay), "That day comes before the first one.");
    }
}
