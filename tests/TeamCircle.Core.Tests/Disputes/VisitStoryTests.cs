using NodaTime;
using TeamCircle.Core.Disputes;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Sessions;

namespace TeamCircle.Core.Tests.Disputes;

public sealed class VisitStoryTests
{
    private const int Odalys = 1, Bram = 2, Marisol = 3;

    private static readonly DateTimeZone Zone = DateTimeZoneProviders.Tzdb["America/Los_Angeles"];
    private static readonly LocalDate Monday = new(2026, 10, 5);
    private static readonly Guid First = new("0190b000-0000-7000-8000-000000000001"), Second = new("0190b000-0000-7000-8000-000000000002"), Third = new("0190b000-0000-7000-8000-000000000003");

    private static Instant At(int month, int day, int hour, int minute = 0) => Zone.AtStrictly(new LocalDateTime(2026, month, day, hour, minute)).ToInstant();

    private static VisitVersion Version(Instant at, VisitStanding standing, LocalDate day, int hour, int provider = Odalys) =>
        new(at, Marisol, standing, day, new LocalTime(hour, 0), 45, provider, Place.Home, null);

    private static VisitEntry Entry(Guid id, Instant at, int end, Guid? replaces = null, string? why = null, int by = Odalys) => new(
        id, at, by, VisitOutcome.Given, Monday.PlusDays(3), new(10, 0), new(10, end), end, true, null, Odalys, Place.Home, null, replaces, why);

    private static string Names(int person) => person switch { Odalys => "Odalys Ferreira", Bram => "Bram Nakamura", _ => "Marisol Quenby" };

    /// <summary>Worked by hand: planned for Monday 9:00, moved to Wednesday 9:00 and to Thursday 10:00; given on Thursday until 10:30, entered on
    /// Saturday at 4:00 pm (2 days and 5 1/2 hours later), corrected on Sunday and on Monday.</summary>
    [Fact]
    public void Visit_moved_twice_logged_late_and_corrected_twice_is_told_in_order()
    {
        var story = VisitStory.Of(
            [
                Version(At(9, 1, 8), VisitStanding.Planned, Monday, 9),
                Version(At(10, 2, 12), VisitStanding.Planned, Monday.PlusDays(2), 9),
                Version(At(10, 6, 17), VisitStanding.Planned, Monday.PlusDays(3), 10),
                Version(At(10, 10, 16), VisitStanding.Logged, Monday.PlusDays(3), 10),
                Version(At(10, 11, 9), VisitStanding.Logged, Monday.PlusDays(3), 10),
            ],
            [
                Entry(Third, At(10, 12, 8), 40, Second, "The mother remembers the end", Marisol),
                Entry(First, At(10, 10, 16), 30),
                Entry(Second, At(10, 11, 9), 35, First, "Read the wrong line of my notes"),
            ],
            [], Zone);

        Assert.Equal(
            [
                "Scheduled for Monday 5 October 2026, 9:00 to 9:45 am, with Odalys Ferreira, home",
                "Moved from Monday 5 October 2026, 9:00 to 9:45 am to Wednesday 7 October 2026, 9:00 to 9:45 am",
                "Moved from Wednesday 7 October 2026, 9:00 to 9:45 am to Thursday 8 October 2026, 10:00 to 10:45 am",
                "First entered: given, 10:00 to 10:30 am, 30 minutes, times observed, Odalys Ferreira",
                "Corrected: given, 10:00 to 10:30 am, 30 minutes, times observed became given, 10:00 to 10:35 am, 35 minutes, times observed",
                "Corrected: given, 10:00 to 10:35 am, 35 minutes, times observed became given, 10:00 to 10:40 am, 40 minutes, times observed",
            ],
            story.Select(e => StoryWords.Of(e, Names)));
        Assert.Equal([null, null, null, null, "Read the wrong line of my notes", "The mother remembers the end"], story.Select(e => e.Why));
        Assert.Equal(Duration.FromMinutes(2 * 1440 + 330), story[3].Delay);
        Assert.Equal("2 days", EntryDelay.Words(story[3].Delay!.Value));
    }

    [Fact]
    public void Visit_handed_over_called_off_and_brought_back_says_each()
    {
        var story = VisitStory.Of(
            [
                Version(At(9, 1, 8), VisitStanding.Planned, Monday, 9),
                Version(At(9, 2, 8), VisitStanding.Planned, Monday, 9, Bram),
                Version(At(9, 3, 8), VisitStanding.CalledOff, Monday, 9, Bram) with { CalledOff = Reason.LearnerUnwell },
                Version(At(9, 4, 8), VisitStanding.Planned, Monday.PlusDays(1), 9, Bram),
                Version(At(9, 5, 8), VisitStanding.Gone, Monday.PlusDays(1), 9, Bram),
            ], [], [], Zone);

        Assert.Equal(
            [StoryAct.Scheduled, StoryAct.HandedOver, StoryAct.CalledOff, StoryAct.BroughtBack, StoryAct.Moved, StoryAct.Removed], story.Select(e => e.Act));
        Assert.Equal("Called off: learner unwell", StoryWords.Of(story[2], Names));
    }

    [Fact]
    public void Entry_taken_back_stays_in_the_story_and_the_plan_that_returns_is_no_move()
    {
        var story = VisitStory.Of(
            [
                Version(At(9, 1, 8), VisitStanding.Planned, Monday.PlusDays(3), 10),
                Version(At(10, 8, 12), VisitStanding.Logged, Monday.PlusDays(3), 10) with { Minutes = 30 },
                Version(At(10, 9, 12), VisitStanding.Planned, Monday.PlusDays(3), 10),
            ],
            [Entry(First, At(10, 8, 12), 30)], [new(First, At(10, 9, 12), Odalys, "Was another child's visit")], Zone);

        Assert.Equal([StoryAct.Scheduled, StoryAct.Entered, StoryAct.TakenBack], story.Select(e => e.Act));
        Assert.Equal("Was another child's visit", story[2].Why);
    }

    [Fact]
    public void What_came_in_a_file_was_entered_by_nobody_and_is_never_late()
    {
        var entered = Assert.Single(VisitStory.Of([], [Entry(First, At(11, 25, 18), 30) with { FromFile = true }], [], Zone));

        Assert.Equal((null, null), (entered.By, entered.Delay));
    }

    /// <summary>Worked by hand: ten delays of 1 to 10 hours. At least half lie within 5 hours (5 of 10), at least nine of ten within 9; of three
    /// delays 2, 4 and 40 hours the median is the second and nine of ten the third (2.7 of 3, so all three).</summary>
    [Theory]
    [InlineData(new[] { 10, 9, 8, 7, 6, 5, 4, 3, 2, 1 }, 5, 9)]
    [InlineData(new[] { 40, 2, 4 }, 4, 40)]
    [InlineData(new[] { 7 }, 7, 7)]
    public void Delay_within_which_a_share_was_entered_is_one_that_occurred(int[] hours, int median, int most)
    {
        var delays = hours.Select(h => Duration.FromHours(h)).ToList();

        Assert.Equal(Duration.FromHours(median), EntryDelay.Within(delays, 50));
        Assert.Equal(Duration.FromHours(most), EntryDelay.Within(delays, 90));
        Assert.Null(EntryDelay.Within([], 50));
    }

    [Theory]
    [InlineData(0, "0 minutes")]
    [InlineData(59, "59 minutes")]
    [InlineData(60, "1 hour")]
    [InlineData(47 * 60 + 59, "47 hours")]
    [InlineData(48 * 60, "2 days")]
    public void Delay_is_told_in_whole_units(int minutes, string words) => Assert.Equal(words, EntryDelay.Words(Duration.FromMinutes(minutes)));

    [Fact]
    public void Entry_before_the_end_is_not_late_and_a_hold_marks_what_was_entered_while_it_stood()
    {
        Assert.Equal(Duration.Zero, EntryDelay.Of(At(10, 5, 10), At(10, 5, 9)));

        var hold = new RecordHold(Monday, Monday.PlusDays(1), At(10, 8, 12), At(10, 9, 12));
        Assert.True(RecordHoldRules.WasUnder(hold, Monday.PlusDays(1), At(10, 8, 12)));
        Assert.False(RecordHoldRules.WasUnder(hold, Monday, At(10, 8, 11)));
        Assert.False(RecordHoldRules.WasUnder(hold, Monday, At(10, 9, 12)));
        Assert.False(RecordHoldRules.WasUnder(hold, Monday.PlusDays(2), At(10, 8, 13)));
    }
}
