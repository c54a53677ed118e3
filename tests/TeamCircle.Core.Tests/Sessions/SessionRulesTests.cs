using NodaTime;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Sessions;

namespace TeamCircle.Core.Tests.Sessions;

public sealed class SessionRulesTests
{
    private static readonly SessionEntry Given = new()
    {
        Outcome = VisitOutcome.Given,
        OnDay = new(2026, 9, 15),
        Start = new(9, 0),
        End = new(9, 45),
    };

    private static SessionSituation At(CoTreatment coTreatment = CoTreatment.None, bool assigned = true, int? planned = 45) => new(
        new LocalDateTime(2026, 9, 15, 9, 45), planned is { } m ? new PlannedTimes(new(9, 0), m) : null, SchoolYear.Service(coTreatment, assigned));

    private static string[] Fields(SessionEntry entry, SessionSituation? at = null) =>
        [.. SessionRules.Check(entry, at ?? At()).Problems.Select(p => p.Field)];

    private static SessionVerdict Verdict(SessionEntry entry, SessionSituation? at = null) => SessionRules.Check(entry, at ?? At()).Value!;

    [Fact]
    public void Visit_as_planned_is_credited_in_full_without_a_word()
    {
        var verdict = Verdict(Given);

        Assert.Equal(45, verdict.Credited);
        Assert.Empty(verdict.Notices);
    }

    [Fact]
    public void Minutes_that_do_not_count_are_taken_off() => Assert.Equal(38, Verdict(Given with { NotCounted = 7 }).Credited);

    [Theory]
    [InlineData(VisitOutcome.Offered)]
    [InlineData(VisitOutcome.NotOffered)]
    public void Visit_not_given_needs_a_reason_and_gives_nothing(VisitOutcome outcome)
    {
        Assert.Equal(["Reason"], Fields(Given with { Outcome = outcome }));
        Assert.Equal(0, Verdict(Given with { Outcome = outcome, Reason = Reason.NobodyHome }).Credited);
    }

    [Fact]
    public void Reason_on_a_given_visit_stands_only_where_it_was_cut_short()
    {
        var short20 = Given with { End = new(9, 25), Reason = Reason.LearnerUnwell };

        Assert.Empty(Fields(short20));
        Assert.Equal(["Reason"], Fields(Given with { Reason = Reason.LearnerUnwell }));
        Assert.Equal(["Reason"], Fields(short20, At(planned: null)));
    }

    [Fact]
    public void Visit_cut_short_without_a_reason_is_stored_and_said() =>
        Assert.Contains("20 minutes shorter", Assert.Single(Verdict(Given with { End = new(9, 25) }).Notices), StringComparison.Ordinal);

    [Fact]
    public void Visit_over_midnight_or_without_length_is_refused()
    {
        Assert.Equal(["End"], Fields(Given with { Start = new(23, 30), End = new(0, 15), OnDay = new(2026, 9, 14) }));
        Assert.Equal(["End"], Fields(Given with { End = new(9, 0) }));
    }

    [Fact]
    public void Visit_of_twelve_hours_stands_and_a_minute_more_does_not()
    {
        var day = Given with { OnDay = new(2026, 9, 14), Start = new(6, 0), End = new(18, 0) };

        Assert.Empty(Fields(day));
        Assert.Equal(["End"], Fields(day with { End = new(18, 1) }));
    }

    [Fact]
    public void What_is_still_to_come_can_be_called_not_offered_but_not_given()
    {
        Assert.Equal(["OnDay"], Fields(Given with { OnDay = new(2026, 9, 16) }));
        Assert.Equal(["End"], Fields(Given with { End = new(9, 46) }));
        Assert.Equal(["OnDay"], Fields(Given with { OnDay = new(2026, 9, 16), Outcome = VisitOutcome.Offered, Reason = Reason.NobodyHome }));
        Assert.Empty(Fields(Given with { OnDay = new(2026, 9, 16), Outcome = VisitOutcome.NotOffered, Reason = Reason.ProviderUnwell }));
    }

    [Fact]
    public void All_problems_come_at_once() =>
        Assert.Equal(
            ["End", "NotCounted", "Reason", "PartnerId", "PaysOn"],
            Fields(Given with
            {
                End = new(8, 0),
                NotCounted = 5,
                Outcome = VisitOutcome.NotOffered,
                WithPartner = true,
                PaysOn = new(2026, 11, 25),
            }));

    [Theory]
    [InlineData("2026-09-08", true)]
    [InlineData("2026-09-12", true)] // a Saturday names its week
    [InlineData("2026-11-25", false)] // the week off
    [InlineData("2026-08-14", false)]
    [InlineData("2027-05-20", false)]
    public void Make_up_names_a_day_of_a_window_in_which_something_is_owed(string day, bool stands)
    {
        var paysOn = NodaTime.Text.LocalDatePattern.Iso.Parse(day).Value;

        Assert.Equal(stands ? [] : ["PaysOn"], Fields(Given with { PaysOn = paysOn }));
    }

    [Fact]
    public void What_happened_otherwise_than_promised_is_stored_and_said()
    {
        var notices = Verdict(Given with { Place = Place.School, Format = SessionFormat.Group }, At(assigned: false)).Notices;

        Assert.Equal(3, notices.Count);
        Assert.All(notices, n => Assert.StartsWith("Given otherwise than promised", n, StringComparison.Ordinal));
    }

    [Fact]
    public void What_will_count_for_nothing_is_stored_and_said()
    {
        var later = At() with { Now = new(2027, 6, 1, 12, 0) };

        Assert.Contains("Outside the dates", Assert.Single(Verdict(Given with { OnDay = new(2027, 5, 10) }, later).Notices), StringComparison.Ordinal);
        Assert.Contains("no school day", Assert.Single(Verdict(Given with { OnDay = new(2026, 11, 25) }, later).Notices), StringComparison.Ordinal);
        Assert.Empty(Verdict(Given with { OnDay = new(2027, 5, 10), PaysOn = new(2027, 5, 3) }, later).Notices);
    }

    [Theory]
    [InlineData(CoTreatment.Full, null, true, 45)]
    [InlineData(CoTreatment.Shared, 20, true, 20)]
    [InlineData(CoTreatment.Lead, null, true, 45)]
    [InlineData(CoTreatment.Lead, null, false, 0)]
    public void Co_treatment_credits_as_the_service_says(CoTreatment coTreatment, int? shared, bool led, int credited)
    {
        var verdict = Verdict(Given with { WithPartner = true, SharedMinutes = shared, Led = led }, At(coTreatment));

        Assert.Equal(credited, verdict.Credited);
        Assert.Contains("has to confirm", Assert.Single(verdict.Notices), StringComparison.Ordinal);
    }

    [Fact]
    public void Shared_minutes_are_stated_and_fit_into_the_visit()
    {
        var together = Given with { WithPartner = true };

        Assert.Equal(["SharedMinutes"], Fields(together, At(CoTreatment.Shared)));
        Assert.Equal(["SharedMinutes"], Fields(together with { SharedMinutes = 46 }, At(CoTreatment.Shared)));
        Assert.Equal(["SharedMinutes"], Fields(Given with { SharedMinutes = 20 }));
        Assert.Equal(["PartnerId"], Fields(together, At(CoTreatment.None)));
    }
}
