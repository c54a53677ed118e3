using TeamCircle.Core.People;
using TeamCircle.Core.Road;

namespace TeamCircle.Data.People;

/// <summary>One agency. Week start and weekdays hold for its whole calendar (docs/rules.md, part 1).</summary>
public sealed class AgencyRow : IVersionedRow
{
    public int Id { get; set; }
    public required string Code { get; set; }
    public required string Name { get; set; }

    /// <summary>Name in the tz database; the agency's "today" is the date there.</summary>
    public required string TimeZone { get; set; }

    /// <summary>Ordinary weekdays, bit 0 Monday to bit 6 Sunday.</summary>
    public int Weekdays { get; set; } = 0b0011111;

    /// <summary>Whether the weekday of a day is an ordinary one, whatever the terms and closures.</summary>
    public bool IsOrdinary(LocalDate day) => (Weekdays >> ((int)day.DayOfWeek - 1) & 1) == 1;

    public IsoDayOfWeek WeekStart { get; set; } = IsoDayOfWeek.Monday;

    /// <summary>School days after which a time away without an end asks the case manager to meet.</summary>
    public int AwayMeetingDays { get; set; } = 10;

    /// <summary>Months for which the review of a routine's card holds.</summary>
    public int ReviewMonths { get; set; } = Core.Routines.ReviewRules.UsualMonths;

    /// <summary>Hours without contact after which a device says that it may not have heard of a hold.</summary>
    public int HoldContactHours { get; set; } = Core.Routines.HoldRules.UsualContactHours;

    /// <summary>Whether families may tell the team something on their page.</summary>
    public bool FamilyTells { get; set; }

    /// <summary>Why the agency switched that on or off; null where nobody ever did.</summary>
    public string? FamilyTellsWhy { get; set; }

    /// <summary>Whether families may say on their page what was practised at home, each of them only where the case manager lets them.</summary>
    public bool HomeTaps { get; set; }

    /// <summary>Why the agency switched that on or off; null where nobody ever did.</summary>
    public string? HomeTapsWhy { get; set; }

    /// <summary>In what distances are entered and shown.</summary>
    public DistanceUnit DistanceUnit { get; set; }

    /// <summary>Years after which a learner's rights over the record are their own, by state law.</summary>
    public int MajorityAge { get; set; } = ComingOfAge.UsualYears;

    /// <summary>Whether what the family may see pauses on that day until the case manager has decided.</summary>
    public bool MajorityPauses { get; set; } = true;
    public int Version { get; set; }
}
