using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Calendar;

/// <summary>Takes back a policy that has not begun; the row stays with the reason.</summary>
public sealed class TakeBackPolicy(Portal portal)
{
    public sealed class Input
    {
        public int Policy { get; set; }
        public int Version { get; set; }
        public string? Reason { get; set; }
        public int? SecondPerson { get; set; }
    }

    public sealed record Saved(LocalDate FromDay);

    public async Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        ChangePolicy.MayChange(caller)
            ? await portal.WriteAsync(Scope.WholeAgency(caller, "the agency's policy"), Operation.Of(operation, nameof(TakeBackPolicy), input),
                db => WorkAsync(db, caller, input, stop), stop)
            : Outcome<Saved>.Refused(Problem.NotFound);

    /// <summary>What taking it back would do to the statuses; reason and second person may still be missing.</summary>
    public async Task<Outcome<StatusPreview>> PreviewAsync(Caller caller, Input input, CancellationToken stop = default) =>
        ChangePolicy.MayChange(caller)
            ? await StatusPreview.RunAsync(portal, Scope.WholeAgency(caller, "the agency's policy"), caller.Today,
                async db => await FindAsync(db, caller, input, stop) is { } row ? TakeBack(row) : Outcome<Saved>.Refused(Problem.NotFound), stop)
            : Outcome<StatusPreview>.Refused(Problem.NotFound);

    private static Task<PolicyRow?> FindAsync(PortalDb db, Caller caller, Input input, CancellationToken stop) =>
        db.Policies.SingleOrDefaultAsync(p => p.AgencyId == caller.AgencyId && p.Id == input.Policy && p.FromDay > caller.Today, stop);

    private static Outcome<Saved> TakeBack(PolicyRow row)
    {
        row.Live = false;
        return Outcome<Saved>.Of(new(row.FromDay));
    }

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (await FindAsync(db, caller, input, stop) is not { } row)
            return Outcome<Saved>.Refused(Problem.NotFound);
        var problems = new List<Problem>();
        if (string.IsNullOrWhiteSpace(input.Reason))
            problems.Add(Refusals.NoReason(nameof(input.Reason)));
        var mayAgree = await ChangePolicy.MayAgreeAsync(db, caller, stop);
        if (!mayAgree.Any(p => p.Id == input.SecondPerson))
            problems.Add(new("SecondPerson", "Name the director, administrator or case manager who agreed; it can't be yourself."));
        if (problems.Count > 0)
            return Outcome<Saved>.Refused(problems);
        db.BeganOn(row, input.Version);
        (row.TakenBackReason, row.SecondPersonId) = (input.Reason!.Trim(), input.SecondPerson);
        return TakeBack(row);
    }
}
