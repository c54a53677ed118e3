using System.Globalization;
using System.Text;
using CsvHelper;
using TeamCircle.Data.Import;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Import;

/// <summary>The sample world's people and learners as a OneRoster 1.2 set: Testing/Roster/README.md names the standard, and what of it is from memory.</summary>
public sealed class RosterSetTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    private static readonly string Folder = Path.Combine(AppContext.BaseDirectory, "Roster");

    [Fact]
    public async Task Set_completed_by_a_clerk_brings_the_same_people_and_learners_as_the_agencys_own_files()
    {
        await using var agency = await TestAgency.CreateAsync(database, "R1");
        var world = BroughtFiles.FromPath(SampleWorld.Folder).Files;
        var made = RosterSet.Files(RosterSet.Read(Brought().Files, ImportedAgency.Today));
        Assert.Equal(["terms.csv", "periods.csv", "people.csv", "learners.csv"], made.Select(f => f.Name));

        var incomplete = await agency.ImportAsync([.. made.Select(f => ImportedAgency.File(f.Name, f.Text))]);
        Assert.Contains("4 plan start; 4 plan end; 4 case manager; 4 most minutes a day", string.Join("; ", incomplete.Problems.Where(p => p.File == "learners.csv").Select(p => $"{p.Line} {p.Column}")), StringComparison.Ordinal);
        Assert.False(incomplete.Stored);

        var completed = await agency.ImportAsync([.. made.Select(f => ImportedAgency.File(f.Name, Completed(f.Name, f.Text)))]);
        Assert.Empty(completed.Problems);
        var facts = await agency.FactsAsync();
        var own = await agency.ImportAsync([.. world.Where(f => made.Any(m => m.Name == f.Name))]);

        Assert.Empty(own.Problems);
        Assert.False(own.Stored); // all that the agency's own files say was known already
        Assert.Equal([3, 4, 7, 3], own.Files.Select(f => f.Known));
        Assert.Equal(facts, await agency.FactsAsync());
    }

    [Fact]
    public void Whom_a_set_leaves_out_and_what_is_to_be_looked_at_is_listed_without_a_name()
    {
        var brought = Brought();

        var reading = RosterSet.Read(brought.Files, ImportedAgency.Today);

        Assert.Equal(["README.md", "demographics.csv"], brought.PassedOver.Order(StringComparer.Ordinal));
        Assert.Empty(reading.Problems);
        Assert.Equal(
            "roles.csv 0 ; users.csv 0 ; users.csv 0 enabledUser; users.csv 13 email; users.csv 14 agentSourcedIds; users.csv 15 ; users.csv 9 agentSourcedIds",
            string.Join("; ", reading.Notes.Select(n => $"{n.File} {n.Line} {n.Column}").Order(StringComparer.Ordinal)));
        Assert.DoesNotContain(reading.Notes, n => n.Text.Contains("Tarrow", StringComparison.Ordinal) || n.Text.Contains("Varnum", StringComparison.Ordinal));
    }

    [Fact]
    public void Set_with_other_files_among_it_is_not_read()
    {
        var mixed = RosterSet.Read([.. Brought().Files, ImportedAgency.File("terms.csv", "name,first day,last day")], ImportedAgency.Today);

        Assert.True(mixed.IsEmpty);
        Assert.Equal("terms.csv", Assert.Single(mixed.Problems).File);
    }

    private static BroughtFiles Brought() => BroughtFiles.FromPath(Folder);

    /// <summary>What a clerk does: takes out whom the agency's own file does not name, and fills the empty cells from it. Cells that the set filled stay,
    /// but for a summer term's kind and the roles of somebody who has a second one here.</summary>
    private static string Completed(string name, string text)
    {
        var (made, own) = (Rows(text), Rows(File.ReadAllText(SampleWorld.File(name), Encoding.UTF8)));
        var rows = made.Join(own, m => m.Values.First(), o => o.Values.First(), (m, o) => m.Select(cell =>
            cell.Value.Length > 0 && cell.Key is not ("kind" or "roles") ? cell.Value : o.GetValueOrDefault(cell.Key, "")));
        using var written = new StringWriter();
        CsvSheet.Write(written, made[0].Keys, rows);
        return written.ToString();
    }

    private static List<Dictionary<string, string>> Rows(string text)
    {
        using var csv = new CsvReader(new StringReader(text), CultureInfo.InvariantCulture);
        csv.Read();
        csv.ReadHeader();
        var rows = new List<Dictionary<string, string>>();
        while (csv.Read())
            rows.Add(csv.HeaderRecord!.ToDictionary(column => column, column => csv.GetField(column)!));
        return rows;
    }
}
