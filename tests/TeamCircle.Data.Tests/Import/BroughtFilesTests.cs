using System.Text;
using TeamCircle.Data.Import;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Import;

/// <summary>What is taken in at all, before anybody asks what the rows mean.</summary>
public sealed class BroughtFilesTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    private static readonly byte[] Terms = Encoding.UTF8.GetBytes("name,first day,last day\r\n2026-2027,2026-08-17,2027-05-28\r\n");

    [Theory]
    [InlineData("../terms.csv")]
    [InlineData("/terms.csv")]
    [InlineData("a/../terms.csv")]
    [InlineData("a/b/terms.csv")]
    [InlineData("..\\terms.csv")]
    [InlineData("C:terms.csv")]
    public void Zip_with_a_path_name_is_refused_whole(string name)
    {
        var brought = ImportedAgency.Zip(("terms.csv", Terms), (name, Terms));

        Assert.Contains("outside its own folder", Assert.Single(brought.Problems).Reason, StringComparison.Ordinal);
        Assert.Empty(brought.Files);
    }

    [Fact]
    public void Zip_that_unfolds_to_too_much_is_refused_while_it_unfolds()
    {
        var brought = ImportedAgency.Zip(("visits.csv", new byte[BroughtFiles.MostBytes + 1]));

        Assert.Contains("100 megabytes", Assert.Single(brought.Problems).Reason, StringComparison.Ordinal);
        Assert.Empty(brought.Files);
    }

    [Fact]
    public void Zip_with_too_many_files_or_none_at_all_is_refused()
    {
        var many = ImportedAgency.Zip([.. Enumerable.Range(0, 201).Select(i => ($"{i}.txt", Array.Empty<byte>()))]);
        var broken = BroughtFiles.From([("folder.zip", () => new MemoryStream([1, 2, 3]))]);

        Assert.Contains("more than 200", Assert.Single(many.Problems).Reason, StringComparison.Ordinal);
        Assert.Contains("not a zip", Assert.Single(broken.Problems).Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Two_files_of_one_kind_are_refused_but_for_visits()
    {
        var brought = BroughtFiles.From([("terms.csv", Open), ("terms-2.csv", Open), ("visits-a.csv", Open), ("visits-b.csv", Open), ("notes.txt", Open)]);

        Assert.Equal("terms-2.csv", Assert.Single(brought.Problems).File);
        Assert.Equal(["terms.csv", "visits-a.csv", "visits-b.csv"], brought.Files.Select(f => f.Name));
        Assert.Equal(["notes.txt"], brought.PassedOver);

        static Stream Open() => new MemoryStream(Terms);
    }

    [Theory]
    [InlineData("B1", "name,first day,last day\r\n\r\n\r\nA,2026-08-17,2026-08-18\r\n\"B\nb\",2026-08-17,oops\r\nC,2026-08-17,oops\r\n", "5 last day; 7 last day")]
    [InlineData("B2", "name,first day,last day\rA,2026-08-17,oops\r", "2 last day")]
    [InlineData("B3", "sep=;\nNAME;first day;last day\nA;2026-08-17;oops\n", "3 last day")]
    [InlineData("B4", "name;\"first day\";last day\nA;2026-08-17;oops", "2 last day")]
    [InlineData("B5", "name,first day,last day\nA\"x,2026-08-17,2026-08-18\nB,\"2026-08-17,2026-08-18\n", "2 ; 3 ")]
    [InlineData("B6", "", "1 ")]
    [InlineData("B7", "name,first day,last day\n", "")]
    public async Task Rows_are_named_by_the_physical_line_on_which_they_start(string code, string text, string refused)
    {
        await using var agency = await TestAgency.CreateAsync(database, code);

        var result = await agency.ImportAsync("terms.csv", text);

        Assert.Equal(refused, string.Join("; ", result.Problems.Select(p => $"{p.Line} {p.Column}")));
    }

    [Fact]
    public async Task File_in_another_encoding_or_no_text_at_all_is_refused_with_the_line()
    {
        await using var agency = await TestAgency.CreateAsync(database, "B8");

        var latin = await agency.ImportAsync([ImportedAgency.File("terms.csv", [.. Terms, (byte)'J', 0xF3, (byte)'n'])]);
        var binary = await agency.ImportAsync([ImportedAgency.File("terms.csv", [.. Terms, 0])]);

        Assert.Contains("UTF-8", Assert.Single(latin.Problems).Reason, StringComparison.Ordinal);
        Assert.Equal(3, latin.Problems[0].Line);
        Assert.Contains("not a text file", Assert.Single(binary.Problems).Reason, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Calendar_events_give_whole_days_repeats_included_and_others_are_noted()
    {
        await using var agency = await TestAgency.CreateAsync(database, "B9");
        const string events = """
            BEGIN:VCALENDAR
            VERSION:2.0
            PRODID:-//example//closures//EN
            BEGIN:VEVENT
            UID:break@example.org
            DTSTART;VALUE=DATE:20261123
            DTEND;VALUE=DATE:20261128
            SUMMARY:Autumn break
            END:VEVENT
            BEGIN:VEVENT
            UID:monday@example.org
            DTSTART;VALUE=DATE:20270104
            RRULE:FREQ=WEEKLY;COUNT=3
            SUMMARY:Staff Monday
            END:VEVENT
            BEGIN:VEVENT
            UID:evening@example.org
            DTSTART:20270105T180000Z
            DTEND:20270105T190000Z
            SUMMARY:Meeting
            END:VEVENT
            END:VCALENDAR
            """;

        var result = await agency.ImportAsync("closures.ics", events.ReplaceLineEndings("\r\n"));

        Assert.Equal(
            "11-23 11-24 11-25 11-26 11-27 01-04 01-11 01-18",
            string.Join(' ', result.ClosuresFromEvents.Select(c => c.Date.ToString("MM-dd", null))));
        Assert.Equal(16, Assert.Single(result.Notes).Line);
        Assert.Single((await agency.ImportAsync("closures.ics", "no calendar")).Problems);
    }

    [Fact]
    public async Task Only_the_chosen_events_become_closures()
    {
        await using var agency = await TestAgency.CreateAsync(database, "B10");
        const string events = "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:x\r\nBEGIN:VEVENT\r\nUID:a\r\nDTSTART;VALUE=DATE:20261123\r\nEND:VEVENT\r\n"
            + "BEGIN:VEVENT\r\nUID:b\r\nDTSTART;VALUE=DATE:20261124\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n";

        var result = await agency.Get<ImportFolder>().RunAsync(new([ImportedAgency.File("closures.ics", events)], agency.Code, Closures: new HashSet<string> { "b" }));

        Assert.Equal(24, Assert.Single(result.ClosuresFromEvents).Date.Day);
    }
}
