using NodaTime;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Mail;

/// <summary>When a person's mails come, in their own zone.</summary>
/// <param name="Days">Days of digests, bit 0 Monday to bit 6 Sunday; 0: never.</param>
/// <param name="At">The hour of digests.</param>
/// <param name="QuietFrom">From this time on nothing comes, this minute among them.</param>
/// <param name="QuietUntil">From this time on mails come again; over midnight where it is earlier. Equal: no quiet hours.</param>
public sealed record MailHours(DateTimeZone Zone, int Days, LocalTime At, LocalTime QuietFrom, LocalTime QuietUntil)
{
    /// <summary>The moment itself, or the end of the quiet hours that it falls into.</summary>
    public Instant NotBefore(Instant moment)
    {
        var local = moment.InZone(Zone).LocalDateTime;
        if (!IsQuiet(local.TimeOfDay))
            return moment;
        var day = QuietUntil > local.TimeOfDay ? local.Date : local.Date.PlusDays(1);
        return WallTime.Resolve(day + QuietUntil, Zone).ToInstant();
    }

    /// <summary>The digest's hour that came last, this moment among them; null where there is none.</summary>
    public LocalDateTime? LastSlot(Instant moment)
    {
        var today = moment.InZone(Zone).Date;
        return Enumerable.Range(0, 8).Select(back => today.PlusDays(-back)).Where(IsChosen).Select(day => (LocalDateTime?)(day + At))
            .FirstOrDefault(slot => InstantOf(slot!.Value) <= moment);
    }

    /// <summary>The same hours on one day of the week only: the last but one ordinary day of the agency's week, so that a day is left to act.</summary>
    /// <param name="weekdays">Ordinary weekdays, bit 0 Monday to bit 6 Sunday; at least one.</param>
    public MailHours OnReminderDay(int weekdays, IsoDayOfWeek weekStart)
    {
        var bits = Enumerable.Range(0, 7).Select(i => ((int)weekStart - 1 + i) % 7).Where(bit => (weekdays >> bit & 1) == 1).ToList();
        return this with { Days = bits.Count == 0 ? 0 : 1 << bits[Math.Max(0, bits.Count - 2)] };
    }

    public Instant InstantOf(LocalDateTime slot) => WallTime.Resolve(slot, Zone).ToInstant();

    private bool IsQuiet(LocalTime time) => QuietFrom <= QuietUntil
        ? QuietFrom <= time && time < QuietUntil
        : time >= QuietFrom || time < QuietUntil;

    private bool IsChosen(LocalDate day) => (Days >> ((int)day.DayOfWeek - 1) & 1) == 1;
}
