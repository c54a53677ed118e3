using System.ComponentModel.DataAnnotations;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Commitments;

namespace TeamCircle.Data.Commitments;

/// <summary>What people typed about a decision, whether about a window or about something brought forward.</summary>
public abstract record DecisionInput
{
    /// <summary>Minutes, or probes.</summary>
    public int? Amount { get; init; }

    /// <summary>Null: as many as the minutes stand for.</summary>
    public int? Sessions { get; init; }

    /// <summary>No default: nothing is proposed.</summary>
    [EnumDataType(typeof(DecisionKind))]
    public DecisionKind? Kind { get; init; }
    public int[] TookPart { get; init; } = [];

    /// <summary>People without an account who took part: family, physician, nurse.</summary>
    [StringLength(500)]
    public string? OthersPresent { get; init; }

    /// <summary>Null: today.</summary>
    public LocalDate? DecidedOn { get; init; }
    public LocalDate? FamilyToldOn { get; init; }

    /// <summary>For a make-up: by when. With any other decision it is not kept.</summary>
    public LocalDate? ByDay { get; init; }

    [StringLength(2000)]
    public string? Why { get; init; }

    internal string? Others => string.IsNullOrWhiteSpace(OthersPresent) ? null : OthersPresent.Trim();

    /// <summary>Two decisions about one learner come one after the other, so that the second sees what the first left.</summary>
    internal static Task<int> TakeTurnAsync(PortalDb db, int agency, int learner, CancellationToken stop) =>
        db.Database.ExecuteSqlAsync($"select 1 from portal.learners where agency_id = {agency} and id = {learner} for no key update", stop);

    /// <summary>The verdict, or all problems at once.</summary>
    /// <param name="onDay">A day of the window it is about.</param>
    /// <param name="situation">What stands; its directors are read here.</param>
    internal async Task<Outcome<DecisionVerdict>> CheckAsync(
        PortalDb db, int agency, LocalDate onDay, DecisionSituation situation, CancellationToken stop)
    {
        if (Kind is not { } kind)
            return Outcome<DecisionVerdict>.Refused(nameof(Kind), "Choose what was decided.");
        var people = await DecisionPeople.ReadAsync(db, agency, situation.Today, stop);
        var entry = new DecisionEntry(onDay, Amount ?? 0, Sessions, kind, [.. TookPart.Distinct()],
            DecidedOn ?? situation.Today, FamilyToldOn, kind == DecisionKind.MakeUp ? ByDay : null, Why?.Trim());
        var check = DecisionRules.Check(entry, situation with { Directors = people.Directors });
        return entry.TookPart.Any(p => !people.Staff.ContainsKey(p))
            ? Outcome<DecisionVerdict>.Refused([.. check.Problems, new(nameof(TookPart), "Choose people of the agency; write the names of others below.")])
            : check;
    }
}
