using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Family;
using TeamCircle.Core.People;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Family;

/// <summary>Switches on or off that families may tell the team something on their page. Off to begin with; it needs a reason, for somebody must read what comes.</summary>
public sealed class SetFamilyTells(Portal portal)
{
    public sealed record Input
    {
        public bool On { get; init; }
        public string? Why { get; init; }

        /// <summary>What the form began on.</summary>
        public int Version { get; init; }
    }

    public sealed record Saved(bool On);

    /// <summary>What holds now.</summary>
    public Task<Input> ReadAsync(Scope scope, CancellationToken stop = default) => portal.ReadAsync(scope, db => db.Agencies.Where(a => a.Id == scope.AgencyId)
        .Select(a => new Input { On = a.FamilyTells, Why = a.FamilyTellsWhy, Version = a.Version }).SingleAsync(stop), stop);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteSettingsAsync(caller, "what families may do", Operation.Of(operation, nameof(SetFamilyTells), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (string.IsNullOrWhiteSpace(input.Why) || input.Why.Trim().Length > RemarkRules.LongestWords)
            return Outcome<Saved>.Refused(nameof(input.Why), "Say why, and who reads what comes.");
        var row = await db.Agencies.SingleAsync(a => a.Id == caller.AgencyId, stop);
        db.BeganOn(row, input.Version);
        (row.FamilyTells, row.FamilyTellsWhy) = (input.On, input.Why.Trim());
        return Outcome<Saved>.Of(new(input.On));
    }
}
