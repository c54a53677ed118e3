using NodaTime;
using TeamCircle.Core.Import;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Sessions;

namespace TeamCircle.Core.Tests.Import;

/// <summary>Which rows of visits are refused, on which column (the rules of the files an agency brings).</summary>
public sealed class ReadVisitsTests
{
    private const string O = AFolder.Odalys;
    private const string B = AFolder.Bram;

    // The columns: date, service, provider, start, end, outcome, planned start, planned end, reason, makes up for, not counted,
    // format, place, partner, note, ref.
    [Theory]
    [InlineData("2026-09-14,WREN-V," + O + ",8:00,8:30,given", "")]
    [InlineData("9/14/2026, wren-v , ODALYS@tallowfern.EXAMPLE ,8.00,8:30 AM,Given", "")]
    [InlineData("2026-09-14,NOBODY," + O + ",8:00,8:30,given", "2 service")]
    [InlineData("2026-09-14,WREN-V,ghost@nowhere.example,8:00,8:30,given", "2 provider")]
    [InlineData("2026-09-14,WREN-V," + O + ",8:00,8:30,given,,,,,,,,ghost@nowhere.example", "2 partner")]
    [InlineData("2026-09-14,WREN-V," + O + ",8:30,8:00,given", "2 end")]
    [InlineData("2026-09-14,WREN-V," + O + ",8:30,8:30,given", "2 end")]
    [InlineData("2026-09-14,WREN-V," + O + ",6:00,18:00,given", "")] // 12 hours to the minute
    [InlineData("2026-09-14,WREN-V," + O + ",6:00,18:01,given", "2 end")]
    [InlineData("2026-10-02,WREN-V," + O + ",8:00,8:30,given", "")]
    [InlineData("2026-10-03,WREN-V," + O + ",8:00,8:30,given", "2 date")]
    [InlineData("2026-10-03,WREN-V," + O + ",8:00,8:30,offered,,,nobody home", "2 date")]
    [InlineData("2026-10-03,WREN-V," + O + ",8:00,8:30,not offered,,,family away", "")]
    [InlineData("2026-10-03,WREN-V," + O + ",8:00,8:30,planned", "")]
    [InlineData("2026-09-14,WREN-V," + O + ",8:00,8:30,offered", "2 reason")]
    [InlineData("2026-09-14,WREN-V," + O + ",8:00,8:30,not offered", "2 reason")]
    [InlineData("2026-09-14,WREN-V," + O + ",8:00,8:30,not offered,,,Not Recorded", "")]
    [InlineData("2026-09-14,WREN-V," + O + ",8:00,8:30,not offered,,,the dog ate it", "2 reason")]
    [InlineData("2026-09-14,WREN-V," + O + ",8:00,8:30,given,,,learner unwell", "2 reason")]
    [InlineData("2026-09-14,WREN-V," + O + ",8:00,8:30,given,8:00,8:45,learner unwell", "")] // planned 45, given 30
    [InlineData("2026-09-14,WREN-V," + O + ",8:00,8:30,given,8:00,8:30,learner unwell", "2 reason")]
    [InlineData("2026-09-14,WREN-V," + O + ",8:00,8:30,given,8:00", "2 planned end")]
    [InlineData("2026-09-14,WREN-V," + O + ",8:00,8:30,given,9:00,8:00", "2 planned end")]
    [InlineData("2026-09-14,WREN-V," + O + ",8:00,8:30,given,,,,2026-09-07", "")]
    [InlineData("2026-09-14,WREN-V," + O + ",8:00,8:30,given,,,,2024-03-05", "2 makes up for")]
    [InlineData("2026-09-14,WREN-V," + O + ",8:00,8:30,given,,,,,30", "")]
    [InlineData("2026-09-14,WREN-V," + O + ",8:00,8:30,given,,,,,31", "2 not counted")]
    [InlineData("2026-09-14,WREN-V," + O + ",8:00,8:30,given,,,,,-1", "2 not counted")]
    [InlineData("2026-02-30,WREN-V," + O + ",8:00,8:30,given", "2 date")]
    [InlineData(",WREN-V," + O + ",8:00,8:30,given", "2 date")]
    [InlineData("2026-09-14,WREN-V," + O + ",25:10,8:30,given", "2 start")]
    [InlineData("2026-09-14,WREN-V," + O + ",8:00,8:30,maybe", "2 outcome")]
    [InlineData("2026-09-14,WREN-V," + O + ",8:00,8:30,given,,,,,,choir", "2 format")]
    [InlineData("2026-09-14,WREN-V," + O + ",8:00,8:30,given,,,,,,,moon", "2 place")]
    [InlineData("2026-02-30,NOBODY," + O + ",8:00,99:99,not offered", "2 date; 2 service; 2 end; 2 reason")]
    public void Row_by_itself_is_good_or_refused_on_its_columns(string row, string refused) => Assert.Equal(refused, new AFolder().Visits(row).Refused());

    [Fact]
    public void Visit_twice_in_the_file_refuses_the_second_and_checks_it_for_nothing_else()
    {
        var files = new AFolder().Visits(
            $"2026-09-14,WREN-V,{O},8:00,8:30,given",
            $"2026-09-14,wren-v,{B},8:00,8:40,given");

        Assert.Equal("3 start", files.Refused());
        Assert.Contains("line 2", Assert.Single(files.Read().Problems).Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Bad_row_is_in_nobodys_way()
    {
        var files = new AFolder().Visits(
            $"2026-09-14,WREN-V,{O},8:00,8:30,maybe",
            $"2026-09-14,WREN-V,{O},8:00,8:30,given",
            $"2026-09-14,JONAH-V,{O},8:10,8:50,given",
            $"2026-09-14,JONAH-V,{O},8:40,9:10,given");

        Assert.Equal("2 outcome; 4 start", files.Refused());
    }

    [Fact]
    public void Provider_in_two_places_refuses_the_later_row_of_the_file()
    {
        var files = new AFolder().Visits(
            $"2026-09-14,WREN-V,{O},8:15,8:45,given",
            $"2026-09-14,JONAH-V,{O},8:00,8:30,given",
            $"2026-09-14,JONAH-V,{O},8:45,9:15,planned");

        Assert.Equal("3 start", files.Refused());
    }

    [Fact]
    public void Learner_in_two_places_is_refused_in_their_own_time_only()
    {
        var files = new AFolder().Visits(
            $"2026-09-14,WREN-V,{O},8:00,8:30,given",
            $"2026-09-14,WREN-OT,{B},8:15,8:45,given",
            $"2026-09-14,WREN-FT,{B},8:00,8:30,given");

        Assert.Equal("3 start", files.Refused());
    }

    [Fact]
    public void Co_treatment_that_both_services_allow_is_no_clash() => Assert.Equal("", new AFolder().Visits(
        $"2026-09-14,WREN-OT,{B},8:00,8:30,given", $"2026-09-14,WREN-AT,{O},8:00,8:45,given").Refused());

    [Fact]
    public void Visits_not_offered_take_no_time() => Assert.Equal("", new AFolder().Visits(
        $"2026-09-14,WREN-V,{O},8:00,8:30,not offered,,,family away", $"2026-09-14,JONAH-V,{O},8:00,8:30,given").Refused());

    [Fact]
    public void Rows_of_one_provider_and_time_are_one_group_in_groups_and_in_adults_time()
    {
        Assert.Equal("", new AFolder().Visits(
            $"2026-09-14,WREN-V,{O},8:00,8:30,given,,,,,,group", $"2026-09-14,JONAH-V,{O},8:00,8:30,given,,,,,,Group").Refused());
        Assert.Equal("", new AFolder().Visits(
            $"2026-09-14,WREN-FT,{O},8:00,8:30,given", $"2026-09-14,JONAH-FT,{O},8:00,8:30,given").Refused());
        Assert.Equal("3 start", new AFolder().Visits(
            $"2026-09-14,WREN-V,{O},8:00,8:30,given,,,,,,group", $"2026-09-14,JONAH-V,{O},8:00,8:35,given,,,,,,group").Refused());
        Assert.Equal("3 start", new AFolder().Visits(
            $"2026-09-14,WREN-V,{O},8:00,8:30,given,,,,,,group", $"2026-09-14,JONAH-V,{O},8:00,8:30,given").Refused());
    }

    [Fact]
    public void Stored_visit_of_somebody_else_is_in_the_way()
    {
        var stored = AFolder.Stored("JONAH-V", new(2026, 9, 14), "8:15", 30);

        Assert.Equal("2 start", new AFolder().Holding(stored).Visits($"2026-09-14,WREN-V,{O},8:00,8:30,given").Refused());
    }

    [Fact]
    public void Planned_visit_becomes_given_by_service_date_and_start()
    {
        var stored = AFolder.Stored("WREN-V", new(2026, 9, 14), "8:00", 45);

        var line = Assert.Single(new AFolder().Holding(stored).Visits($"2026-09-14,WREN-V,{O},8:00,8:30,given,,,learner unwell").Read().Visits);

        Assert.Equal((stored.Id, new LocalTime(8, 0), 45, Reason.LearnerUnwell), (line.Stored!.Id, line.PlannedStart, line.PlannedMinutes, line.Reason));
    }

    [Fact]
    public void Planned_visit_is_found_by_its_number_or_its_planned_start_where_it_began_later()
    {
        var numbered = AFolder.Stored("WREN-V", new(2026, 9, 14), "8:00", 30, number: "A7");
        var plain = AFolder.Stored("JONAH-V", new(2026, 9, 14), "9:00", 30);

        var read = new AFolder().Holding(numbered, plain).Visits(
            $"2026-09-15,WREN-V,{O},8:10,8:30,given,,,,,,,,,,a7",
            $"2026-09-14,JONAH-V,{O},9:10,9:30,given,9:00,9:30").Read();

        Assert.Empty(read.Problems);
        Assert.Equal([numbered.Id, plain.Id], read.Visits.Select(v => v.Stored!.Id));
    }

    [Fact]
    public void Two_rows_about_one_stored_visit_refuse_the_second()
    {
        var stored = AFolder.Stored("WREN-V", new(2026, 9, 14), "8:00", 30, number: "A7");

        Assert.Equal("3 start", new AFolder().Holding(stored).Visits(
            $"2026-09-14,WREN-V,{O},10:00,10:30,given,,,,,,,,,,A7", $"2026-09-14,WREN-V,{O},8:00,8:30,given").Refused());
        Assert.Equal("3 ref", new AFolder().Visits(
            $"2026-09-14,WREN-V,{O},10:00,10:30,given,,,,,,,,,,A7", $"2026-09-15,WREN-V,{O},8:00,8:30,given,,,,,,,,,,A7").Refused());
    }

    [Fact]
    public void Visit_that_moves_leaves_its_old_place_to_another_row_unless_it_is_refused()
    {
        var moving = AFolder.Stored("WREN-V", new(2026, 9, 14), "8:00", 30, number: "A7");
        var takesItsPlace = $"2026-09-14,JONAH-V,{O},8:00,8:30,given";

        Assert.Equal("", new AFolder().Holding(moving).Visits($"2026-09-14,WREN-V,{O},10:00,10:30,given,,,,,,,,,,A7", takesItsPlace).Refused());
        // The moving row meets an earlier row at its new place, so the stored visit stays where it is.
        Assert.Equal("3 start; 4 start", new AFolder().Holding(moving).Visits(
            $"2026-09-14,JONAH-V,{O},10:15,10:45,given", $"2026-09-14,WREN-V,{O},10:00,10:30,given,,,,,,,,,,A7", takesItsPlace).Refused());
    }

    [Fact]
    public void What_is_to_check_is_noted_and_stored_all_the_same()
    {
        var read = new AFolder().Visits(
            $"2026-09-14,WREN-V,{O},8:00,8:30,planned",
            $"2026-09-15,WREN-V,{O},8:00,8:30,not offered,,,not recorded",
            $"2026-08-10,WREN-V,{O},8:00,8:30,given",
            $"9/1/2026,WREN-V,{O},8:00,8:30,given").Read();

        Assert.Equal(4, read.Visits.Count);
        Assert.Equal([(5, "date"), (2, "outcome"), (3, "reason"), (4, "date")], read.Notes.Select(n => (n.Line, n.Column)));
    }
}
