using NodaTime;
using TeamCircle.Core.Import;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Tests.Import;

/// <summary>All files but visits.</summary>
public sealed class ReadFolderTests
{
    private const string Services = "code,learner,service,provider,quantity,sessions,every,from,to,place,kind,continues";

    [Fact]
    public void Header_may_come_in_any_case_and_order_with_columns_nobody_knows()
    {
        var read = new AFolder().Table(FileKind.Periods, " END ,Colour,name,Start", "2026-12-18,blue,Period 2,2026-10-19").Read();

        Assert.Equal(new LocalDate(2026, 10, 19), Assert.Single(read.Periods).Start);
        Assert.Equal("Colour", Assert.Single(read.Notes).Column);
        Assert.Empty(read.Problems);
    }

    [Fact]
    public void Header_as_long_as_a_book_is_not_shown_whole()
    {
        var read = new AFolder().Table(FileKind.Periods, $"name,start,end,{new string('A', 100_000)}", "Period 2,2026-10-19,2026-12-18,x").Read();

        Assert.Equal(new string('A', FileNote.LongestColumn) + "…", Assert.Single(read.Notes).Column);
    }

    [Fact]
    public void Header_that_lacks_a_column_or_names_one_twice_refuses_the_file_on_that_column()
    {
        Assert.Equal("1 end", new AFolder().Table(FileKind.Periods, "name,start", "Period 2,2026-10-19").Refused());
        Assert.Equal("1 Name", new AFolder().Table(FileKind.Periods, "name,start,end,Name", "Period 2,2026-10-19,2026-12-18,x").Refused());
    }

    [Fact]
    public void Row_with_more_cells_than_the_header_is_refused_as_a_whole() =>
        Assert.Equal("2 ", new AFolder().Table(FileKind.Periods, "name,start,end", "Period 2,2026-10-19,2026-12-18,left over").Refused());

    [Fact]
    public void Periods_must_not_overlap_and_gaps_with_school_days_are_noted()
    {
        var overlapping = new AFolder().Table(FileKind.Periods, "name,start,end", "Period 2,2026-10-16,2026-12-18");
        var gap = new AFolder().Table(FileKind.Periods, "name,start,end", "Period 2,2026-10-20,2026-12-18");
        var weekend = new AFolder().Table(FileKind.Periods, "name,start,end", "Period 2,2026-10-19,2026-12-18");

        Assert.Equal("2 start", overlapping.Refused());
        Assert.Contains("1 school days", Assert.Single(gap.Read().Notes).Text, StringComparison.Ordinal);
        Assert.Empty(weekend.Read().Notes);
    }

    [Theory]
    [InlineData(FileKind.Terms, "name,first day,last day,kind", "T,2026-08-17,2026-08-16,regular", "2 last day")]
    [InlineData(FileKind.Terms, "name,first day,last day,kind", "T,2026-08-17,2027-05-28,summer", "2 kind")]
    [InlineData(FileKind.Closures, "date,name,kind", "2026-09-31,Fair,published", "2 date")]
    [InlineData(FileKind.Closures, "date,name,kind", "2026-09-30,,holiday", "2 name; 2 kind")]
    [InlineData(FileKind.People, "email,name,roles,disciplines", "no address,A,provider,vision", "2 email")]
    [InlineData(FileKind.People, "email,name,roles,disciplines", "a@b.example,A,terminal,vision", "2 roles")]
    [InlineData(FileKind.People, "email,name,roles,disciplines", "a@b.example,A,director,vision", "2 roles")]
    [InlineData(FileKind.People, "email,name,roles,disciplines", "a@b.example,A,,magic", "2 roles; 2 disciplines")]
    [InlineData(FileKind.Learners, "code,name,plan start,plan end,case manager,team,most minutes a day",
        "SEFA,Sefa,2026-03-07,2026-03-06,x@b.example,y@b.example,1441", "2 case manager; 2 team; 2 most minutes a day; 2 plan end")]
    [InlineData(FileKind.Assignments, "service,person,from,to", "WREN-V,bram@tallowfern.example,2026-09-02,2026-09-01", "2 to")]
    [InlineData(FileKind.Assignments, "service,person,from,to", "X,x@b.example,2026-09-01,2026-09-02", "2 service; 2 person")]
    [InlineData(FileKind.Balances, "service,as of,given before", "WREN-V,2026-09-01,many", "2 given before")]
    [InlineData(FileKind.Probes, "date,goal,provider,value,kind,stage", "2026-09-01,WREN-G,bram@tallowfern.example,101,,", "2 value")]
    [InlineData(FileKind.Probes, "date,goal,provider,value,kind,stage", "2026-10-03,WREN-G,bram@tallowfern.example,10,guess,later", "2 kind; 2 stage; 2 date")]
    [InlineData(FileKind.Probes, "date,goal,provider,value,kind,makes up for", "2026-09-01,WREN-G,bram@tallowfern.example,10,,2024-01-01", "2 makes up for")]
    [InlineData(FileKind.Decisions, "date,service,goal,amount,decision,decided on,by", "2026-09-01,,,30,not owed,2026-09-06,bram@tallowfern.example", "2 service")]
    [InlineData(FileKind.Decisions, "date,service,goal,amount,decision,decided on,by", "2026-09-01,WREN-V,WREN-G,30,forget it,2026-09-06,", "2 goal; 2 decision; 2 by")]
    [InlineData(FileKind.Decisions, "date,service,goal,amount,decision,decided on,by", "2026-09-01,WREN-V,,0,meeting,2026-09-06,bram@tallowfern.example", "2 amount")]
    public void Row_is_refused_on_its_columns(FileKind kind, string header, string row, string refused) =>
        Assert.Equal(refused, new AFolder().Table(kind, header, row).Refused());

    [Theory]
    [InlineData("NEW,WREN,vision,,60,2,week,2026-08-17,2027-05-06,home,direct,", "")]
    [InlineData("NEW,WREN,vision,,61,2,week,2026-08-17,2027-05-06,home,direct,", "2 sessions")]
    [InlineData("NEW,WREN,magic,ghost@b.example,60,2,day,2026-08-17,2027-05-06,moon,odd,", "2 service; 2 provider; 2 every; 2 place; 2 kind")]
    [InlineData("NEW,WREN,vision,,60,,week,2026-08-17,2026-08-16,home,direct,", "2 to")]
    [InlineData("WREN-V,JONAH,vision,,60,,week,2026-08-17,2027-05-06,home,direct,", "2 learner")]
    [InlineData("NEW,WREN,vision,,90,,week,2026-09-09,2027-05-06,home,direct,GHOST", "2 continues")]
    [InlineData("NEW,WREN,vision,,90,,month,2027-05-07,2027-06-06,home,direct,WREN-V", "2 every")]
    [InlineData("NEW,WREN,vision,,90,,week,2026-09-09,2027-05-06,home,direct,WREN-V", "2 from")] // WREN-V runs to 6 May
    [InlineData("NEW,WREN,vision,,90,,week,2027-05-07,2027-06-06,home,direct,WREN-V", "")]
    [InlineData("NEW,WREN,vision,,90,,week,2027-05-07,2027-06-06,home,direct,NEW", "2 continues")]
    public void Service_is_good_or_refused_on_its_columns(string row, string refused) =>
        Assert.Equal(refused, new AFolder().Table(FileKind.Services, Services, row).Refused());

    [Fact]
    public void Service_that_continues_another_makes_one_line_whatever_the_order_of_the_rows()
    {
        var read = new AFolder().Table(FileKind.Services, Services,
            "J-2,JONAH,occupational therapy,,90,3,week,2026-09-09,2027-05-01,home,direct,j-1",
            "J-1,JONAH,occupational therapy,,60,2,week,2026-08-17,2026-09-08,home,direct,").Read();

        Assert.Empty(read.Problems);
        Assert.Equal(["J-1", "J-1"], read.Services.Select(s => s.LineCode));
    }

    [Fact]
    public void Version_that_ends_after_the_next_one_starts_is_refused() => Assert.Equal("2 to", new AFolder()
        .Holding(f => f with { Services = [Line("J-1", "J-2")] })
        .Table(FileKind.Services, Services, "J-1,JONAH,vision,,60,,week,2026-08-17,2026-12-31,home,direct,").Refused());

    [Fact]
    public void Row_that_names_a_refused_row_of_the_same_import_says_so()
    {
        var read = new AFolder()
            .Table(FileKind.Services, Services, "NEW,WREN,vision,,sixty,,week,2026-08-17,2027-05-06,home,direct,")
            .Visits($"2026-09-14,NEW,{AFolder.Odalys},8:00,8:30,given").Read();

        Assert.Equal("The row of this service was refused: services.csv, line 2.", read.Problems[1].Reason);
    }

    [Fact]
    public void Rows_may_name_rows_of_files_before_theirs()
    {
        var read = new AFolder()
            .Table(FileKind.People, "email,name,roles", "new@tallowfern.example,New Person,provider;case manager")
            .Table(FileKind.Learners, "code,name,plan start,plan end,case manager,team,family,most minutes a day",
                "SEFA,Sefa Lautele,2026-03-07,2027-03-06,NEW@tallowfern.example,new@tallowfern.example,,90")
            .Table(FileKind.Services, Services, "SEFA-V,SEFA,vision,new@tallowfern.example,60,2,week,2026-08-17,2027-03-06,home,direct,")
            .Visits("2026-09-14,SEFA-V,new@tallowfern.example,8:00,8:30,given,,,,2026-09-07").Read();

        Assert.Empty(read.Problems);
        Assert.Equal("SEFA-V", Assert.Single(read.Visits).Service);
    }

    [Fact]
    public void Key_twice_in_a_file_refuses_the_second_row() => Assert.Equal("3 code", new AFolder().Table(FileKind.Services, Services,
        "NEW,WREN,vision,,60,,week,2026-08-17,2027-05-06,home,direct,", "new,WREN,vision,,90,,week,2026-08-17,2027-05-06,home,direct,").Refused());

    [Fact]
    public void Decision_about_a_day_in_no_window_is_kept_and_noted()
    {
        var read = new AFolder().Table(FileKind.Decisions, "date,service,amount,decision,decided on,by",
            $"2024-09-01,WREN-V,30,not owed,2024-09-06,{AFolder.Bram}").Read();

        Assert.Single(read.Decisions);
        Assert.Equal("date", Assert.Single(read.Notes).Column);
    }

    [Fact]
    public void Agency_file_names_the_line_of_each_bad_value()
    {
        var files = new AFolder().Agency("""
            {
             "name": "Tallowfern",
             "timeZone": "Mars/Olympus",
             "weekdays": ["Mon", "Someday"],
             "weekStart": "Mon",
             "shortWindow": "sometimes",
             "sessionShare": 0,
             "motto": "x"
            }
            """);

        Assert.Equal("3 timeZone; 4 weekdays; 6 shortWindow; 7 sessionShare", files.Refused());
        Assert.Equal((8, "motto"), (files.Read().Notes[0].Line, files.Read().Notes[0].Column));
        Assert.Equal("2 ", new AFolder().Agency("{\n \"name\": }").Refused());
    }

    [Fact]
    public void Policy_that_differs_from_every_stored_one_is_refused_and_a_stored_one_is_not()
    {
        const string json = """{"name": "T", "timeZone": "America/Los_Angeles", "tolerancePercent": 5}""";

        Assert.Equal("1 shortWindow", new AFolder().Agency(json).Refused());
        Assert.Equal("", new AFolder().Holding(f => f with { Agency = f.Agency! with { Policies = [] } }).Agency(json).Refused());
    }

    [Fact]
    public void Agency_that_is_new_needs_its_own_file() =>
        Assert.Equal("1 ", new AFolder().Holding(f => f with { Agency = null }).Table(FileKind.Periods, "name,start,end").Refused());

    private static ServiceFact Line(string first, string second) => new(
        first, "JONAH", Discipline.Vision, ServiceKind.Direct, Place.Home, SessionFormat.Individual, LineTerms.Regular, CoTreatment.None, null,
        new Every(EveryUnit.Week, 1), null, new(2026, 8, 17), new(2027, 5, 1),
        [new(first, new(2026, 8, 17), 60, null), new(second, new(2026, 9, 9), 90, null)]);
}
