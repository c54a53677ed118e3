using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Family;
using TeamCircle.Core.People;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Family;

/// <summary>What an agency lets families do on their page. Both are off to begin with.</summary>
public enum FamilySwitch
{
    /// <summary>Tell the team something.</summary>
    Tells,

    /// <summary>Say what was practised at home. Who of them may is for each learner's case manager to say.</summary>
    HomeTaps,
}

/// <summary>Switches on or off what families may do on their page. It needs a reason, for somebody must read what comes.</summary>
public sealed class SetFamilySwitch(Portal portal)
{
    public sealed record Input
    {
        public FamilySwitch Which { get; init; }
        public bool On { get; init; }
        public string? Why { get; init; }

        /// <summary>What the form began on.</summary>
        public int Version { get; init; }
    }

    public sealed record Saved(bool On);

    /// <summary>What holds now.</summary>
    public Task<(Input Tells, Input HomeTaps)> ReadAsync(Scope scope, CancellationToken stop = default) => portal.ReadAsync(scope, async db =>
    {
        var row = await db.Agencies.SingleAsync(a => a.Id == scope.AgencyId, stop);
        return (new Input { Which = FamilySwitch.Tells, On = row.FamilyTells, Why = row.FamilyTellsWhy, Version = row.Version },
            new Input { Which = FamilySwitch.HomeTaps, On = row.HomeTaps, Why = row.HomeTapsWhy, Version = row.Version });
    }, stop);

    public Task<Outcome<Saved>> RunAsync(Caller caller, Guid operation, Input input, CancellationToken stop = default) =>
        portal.WriteSettingsAsync(caller, "what families may do", Operation.Of(operation, nameof(SetFamilySwitch), input), db => WorkAsync(db, caller, input, stop), stop);

    private static async Task<Outcome<Saved>> WorkAsync(PortalDb db, Caller caller, Input input, CancellationToken stop)
    {
        if (string.IsNullOrWhiteSpace(input.Why) || input.Why.Trim().Length > RemarkRules.LongestWords)
            return Outcome<Saved>.Refused(nameof(input.Why), input.Which == FamilySwitch.Tells ? "Say why, and who reads what comes." : "Say why.");
        var row = await db.Agencies.SingleAsync(a => a.Id == caller.AgencyId, stop);
        db.BeganOn(row, input.Version);
        if (input.Which == FamilySwitch.Tells)
            (row.FamilyTells, row.FamilyTellsWhy) = (input.On, input.Why.Trim());
        else
            (row.HomeTaps, row.HomeTapsWhy) = (input.On, input.Why.Trim());
        return Outcome<Saved>.Of(new(input.On));
    }
}
