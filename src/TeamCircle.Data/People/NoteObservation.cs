using System.ComponentModel.DataAnnotations;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.People;

/// <summary>Notes a supervision visit that the caller made: whom they watched, when, how long, and whether with the learner there.</summary>
public sealed class NoteObservation(Portal portal)
{
    public sealed class Input
    {
        public int Learner { get; set; }
        public int? Assistant { get; set; }
        public LocalDate? OnDay { get; set; }
        public int? Minutes { get; set; }

        /// <summary>Whether they went through it together afterwards, without the learner there.</summary>
        public bool Afterwards { get; set; }

        [StringLength(4000)]
        public string? Note { get; set; }
    }

    public sealed record Saved(int Learner);

    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        caller.IsStaff && caller.IsMember(input.Learner)
            ? await portal.WriteAsync(Scope.OfLearner(caller, input.Learner), Operation.Of(operation, nameof(NoteObservation), input), db => WorkAsync(db, caller, input, stop), stop)
            : Outcome<Saved>.Refused(Problem.NotFound);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (input.Assistant == caller.PersonId)
            return Outcome<Saved>.Refused("Assistant", "Nobody supervises themselves.");
        var team = await AddTeamMember.StandingAsync(db, caller.AgencyId, input.Learner, stop);
        var wasThen = input.OnDay is { } day && team.Exists(r => r.PersonId == input.Assistant && r.Kind == Relation.Assistant && AddTeamMember.Dates(r).Holds(day));
        Problem[] problems = [.. SupervisionRules.CheckVisit(input.OnDay, input.Minutes, wasThen, caller.Today)];
        if (problems.Length > 0)
            return Outcome<Saved>.Refused(problems);
        db.Add(new ObservationRow
        {
            AgencyId = caller.AgencyId,
            LearnerId = input.Learner,
            AssistantId = input.Assistant!.Value,
            ObserverId = caller.PersonId,
            OnDay = input.OnDay!.Value,
            Minutes = input.Minutes!.Value,
            Direct = !input.Afterwards,
            Note = string.IsNullOrWhiteSpace(input.Note) ? null : input.Note.Trim(),
        });
        return Outcome<Saved>.Of(new(input.Learner));
    }
}
