using NodaTime;
using TeamCircle.Core.Mail;

namespace TeamCircle.Core.Tests.Mail;

/// <summary>When mails come: digests' hours, quiet hours over midnight and over clock changes. Dates worked out by hand from a calendar.</summary>
public sealed class MailHoursTests
{
    private static readonly DateTimeZone Zone = DateTimeZoneProviders.Tzdb["America/Los_Angeles"];
    private static readonly MailHours Usual = new(Zone, 0b0011111, new(7, 0), new(20, 0), new(7, 0));

    private static Instant At(int month, int day, int hour, int minute = 0) => new LocalDateTime(2026, month, day, hour, minute).InZoneStrictly(Zone).ToInstant();

    [Theory]
    [InlineData(19, 59, 2, 19, 59)]
    [InlineData(20, 0, 3, 7, 0)]
    [InlineData(23, 30, 3, 7, 0)]
    [InlineData(0, 0, 2, 7, 0)]
    [InlineData(6, 59, 2, 7, 0)]
    [InlineData(7, 0, 2, 7, 0)]
    public void Quiet_hours_over_midnight_end_at_the_next_morning(int hour, int minute, int day, int untilHour, int untilMinute) =>
        Assert.Equal(At(10, day, untilHour, untilMinute), Usual.NotBefore(At(10, 2, hour, minute)));

    [Fact]
    public void Same_time_twice_means_no_quiet_hours() =>
        Assert.Equal(At(10, 2, 3), (Usual with { QuietFrom = LocalTime.Midnight, QuietUntil = LocalTime.Midnight }).NotBefore(At(10, 2, 3)));

    [Fact]
    public void Quiet_hours_within_a_day_end_on_that_day()
    {
        var noon = Usual with { QuietFrom = new(12, 0), QuietUntil = new(13, 0) };
        Assert.Equal(At(10, 2, 13), noon.NotBefore(At(10, 2, 12, 30)));
        Assert.Equal(At(10, 2, 23), noon.NotBefore(At(10, 2, 23)));
    }

    [Fact]
    public void Quiet_that_ends_in_the_hour_that_a_clock_change_skips_ends_after_it() =>
        Assert.Equal(
            new LocalDateTime(2026, 3, 8, 3, 30).InZoneStrictly(Zone).ToInstant(), // 8 March 2026: 2:00 becomes 3:00
            (Usual with { QuietUntil = new(2, 30) }).NotBefore(At(3, 8, 1, 30)));

    [Fact]
    public void Digest_comes_on_chosen_days_only_and_the_weekend_has_none()
    {
        // 2 October 2026 is a Friday.
        Assert.Equal(new LocalDateTime(2026, 10, 2, 7, 0), Usual.LastSlot(At(10, 2, 7)));
        Assert.Equal(new LocalDateTime(2026, 10, 1, 7, 0), Usual.LastSlot(At(10, 2, 6, 59)));
        Assert.Equal(new LocalDateTime(2026, 10, 2, 7, 0), Usual.LastSlot(At(10, 4, 23)));
        Assert.Null((Usual with { Days = 0 }).LastSlot(At(10, 2, 7)));
        Assert.Equal(new LocalDateTime(2026, 9, 28, 7, 0), (Usual with { Days = 1 }).LastSlot(At(10, 4, 23)));
    }

    [Fact]
    public void Pauses_grow_and_end_after_two_days_or_so()
    {
        var pauses = Enumerable.Range(1, MailTries.Most - 1).Select(n => MailTries.Pause(n, Duration.FromMinutes(1))).ToList();

        Assert.Equal(pauses.Order(), pauses);
        Assert.Equal(Duration.FromMinutes(1), pauses[0]);
        Assert.InRange(pauses.Aggregate(Duration.Zero, (sum, p) => sum + p), Duration.FromHours(36), Duration.FromHours(60));
    }

    [Fact]
    public void Digest_says_numbers_of_things_and_leaves_out_what_is_none()
    {
        var text = MailTexts.VisitsAndMinutes(new(ToLog: 3, Closing: 1, Probes: 0, Reports: 0, SetAside: 0, Remarks: 0));

        Assert.Equal(["3 visits to log.", "1 service with minutes missing in what closes this week."], text.Lines);
    }
}
