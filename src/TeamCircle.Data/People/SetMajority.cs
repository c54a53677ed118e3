using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.People;

/// <summary>Says at what age rights pass to the learner by state law, and whether the family's seats pause on that day.</summary>
public sealed class SetMajority(Portal portal)
{
    public sealed record Input
    {
        public int? Years { get; init; }
        public bool Pauses { get; init; }

        /// <summary>What the form began on.</summary>
        public int Version { get; init; }
    }

    public sealed record Saved(int Years);

    /// <summary>What holds now.</summary>
    public Task<Input> ReadAsync(Scope scope, CancellationToken stop = default) => portal.ReadAsync(scope, db => db.Agencies.Where(a => a.Id == scope.AgencyId)
        .Select(a => new Input { Years = a.MajorityAge, Pauses = a.MajorityPauses, Version = a.Version }).SingleAsync(stop), stop);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteSettingsAsync(caller, "coming of age", Operation.Of(operation, nameof(SetMajority), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (input.Years is not { } years || years is < ComingOfAge.FewestYears or > ComingOfAge.MostYears)
            return Outcome<Saved>.Refused(nameof(input.Years), $"Give {ComingOfAge.FewestYears} to {ComingOfAge.MostYears} years.");
        var row = await db.Agencies.SingleAsync(a => a.Id == caller.AgencyId, stop);
        db.BeganOn(row, input.Version);
        (row.MajorityAge, row.MajorityPauses) = (years, input.Pauses);
        return Outcome<Saved>.Of(new(years));
    }
}
