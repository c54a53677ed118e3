using System.Collections.Frozen;
using System.Text;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Sessions;
using TeamCircle.Data.Import;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;
using TeamCircle.Testing;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Import;

/// <summary>The demonstration world's folder, and its visits once more from untidy hands.</summary>
public sealed class ImportWorldTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    private static BroughtFiles World => BroughtFiles.FromPath(SampleWorld.Folder);

    private static IReadOnlyList<BroughtFile> Messy => BroughtFiles.FromPath(SampleWorld.File("visits-messy.csv")).Files;

    [Fact]
    public async Task World_is_taken_whole_and_leaves_one_change_row_with_the_hashes_of_its_files()
    {
        await using var agency = await TestAgency.CreateAsync(database, "W1");
        var before = await ChangesAsync(agency);

        var result = await agency.ImportAsync(World.Files);

        Assert.Empty(result.Problems);
        Assert.Equal(["README.md", "expected-audit.json", "expected-problems.json", "visits-messy.csv"], World.PassedOver.Order(StringComparer.Ordinal));
        Assert.Equal(110, result.Files.Single(f => f.File == "visits.csv").Added);
        Assert.Equal(3, result.ClosuresFromEvents.Count);
        Assert.Equal([.. before, "imports insert"], await ChangesAsync(agency));
        var change = await agency.Portal.ReadAsync(agency.WholeAgency, db => db.Changes.SingleAsync(c => c.TableName == "imports"));
        Assert.Contains(result.Files.Single(f => f.File == "visits.csv").Sha256, change.After!, StringComparison.Ordinal);
    }

    [Fact]
    public async Task World_a_second_time_changes_nothing_at_all()
    {
        await using var agency = await TestAgency.CreateAsync(database, "W2");
        await agency.ImportAsync(World.Files);
        var before = await agency.StateAsync();

        var again = await agency.ImportAsync(World.Files);

        Assert.False(again.Stored);
        Assert.Empty(again.Problems);
        Assert.Equal(before, await agency.StateAsync());
        Assert.All(again.Files, f => Assert.Equal((0, 0, f.Rows), (f.Added, f.Changed, f.Known)));
    }

    [Theory]
    [InlineData("W3", true)]
    [InlineData("W4", false)] // visits.csv was not brought before
    public async Task Messy_visits_list_exactly_the_expected_rows_and_take_all_others(string code, bool visitsBefore)
    {
        await using var agency = await TestAgency.CreateAsync(database, code);
        await agency.ImportAsync([.. World.Files.Where(f => visitsBefore || f.Name != "visits.csv")]);
        var expected = JsonSerializer.Deserialize<Expected>(File.ReadAllText(SampleWorld.File("expected-problems.json")), JsonSerializerOptions.Web)!;

        var refused = await agency.ImportAsync(Messy);
        var sessionsBefore = await SessionsAsync(agency);
        var stored = await agency.ImportAsync(Messy, goodRows: true);

        Assert.False(refused.Stored);
        Assert.Equal(expected.Problems.Select(p => (p.Line, p.Column)), refused.Problems.Select(p => (p.Line, p.Column)));
        var file = Assert.Single(stored.Files);
        Assert.Equal((expected.Rows, expected.Good, expected.Rows - expected.Good), (file.Rows, file.Added + file.Changed + file.Known, file.Refused));
        Assert.Equal(visitsBefore ? sessionsBefore : 74, await SessionsAsync(agency));
        var state = await agency.StateAsync();
        await agency.ImportAsync(Messy, goodRows: true);
        Assert.Equal(state, await agency.StateAsync());
    }

    [Fact]
    public async Task Refused_rows_can_be_mended_and_brought_again()
    {
        await using var agency = await TestAgency.CreateAsync(database, "W5");
        await agency.ImportAsync([.. World.Files.Where(f => f.Name != "visits.csv")]);
        var refused = Assert.Single((await agency.ImportAsync(Messy, goodRows: true)).Refused);
        Assert.Equal(16, refused.Text.Split("\r\n", StringSplitOptions.RemoveEmptyEntries).Length);

        var mended = refused.Text.Replace("2026-02-30", "2026-08-20", StringComparison.Ordinal).Replace(",maybe,", ",given,", StringComparison.Ordinal);
        var again = await agency.ImportAsync(refused.Name, mended, goodRows: true);

        Assert.Equal(2, Assert.Single(again.Files).Added);
        Assert.Contains(again.Notes, n => n.Column == "problem");
    }

    [Fact]
    public async Task World_as_a_zip_with_semicolons_byte_order_marks_and_other_line_ends_is_the_same_world()
    {
        await using var plain = await TestAgency.CreateAsync(database, "W6");
        await using var varied = await TestAgency.CreateAsync(database, "W7");
        await plain.ImportAsync(World.Files);
        await ImportedAgency.ImportAsync(plain, Messy, goodRows: true);
        var zip = ImportedAgency.Zip([.. World.Files.Select(f => ($"world/{f.Name}", f.Name.EndsWith(".csv", StringComparison.Ordinal) ? Varied(f.Content, "\n", "") : f.Content))]);

        Assert.Empty(zip.Problems);
        Assert.Empty((await varied.ImportAsync(zip.Files)).Problems);
        var messy = await varied.ImportAsync([ImportedAgency.File("visits-messy.csv", Varied(Messy[0].Content, "\r\n", "sep=;\r\n"))], goodRows: true);

        Assert.Equal(81, messy.Problems[0].Line); // one line more than without sep=
        Assert.Equal(await NotesAsync(plain), await NotesAsync(varied));
    }

    [Fact]
    public async Task Imports_undone_from_the_last_leave_the_agency_as_it_was_and_can_be_brought_again()
    {
        await using var agency = await TestAgency.CreateAsync(database, "W30");
        var dele = await agency.AddAsync(new PersonRow { Name = "Dele Okwarre", Email = "dele@before.example" });
        await agency.AddAsync(new PersonRoleRow { PersonId = dele.Id, Role = Role.Administrator, FromDay = new(2026, 8, 1) });
        var empty = await agency.FactsAsync();
        await agency.ImportAsync(World.Files);
        var world = await agency.FactsAsync();
        await ImportedAgency.ImportAsync(agency, Messy, goodRows: true);
        var messy = await agency.FactsAsync();

        Assert.Empty((await UndoAsync(agency, dele.Id)).Problems);
        Assert.Equal(world, await agency.FactsAsync());
        await ImportedAgency.ImportAsync(agency, Messy, goodRows: true);
        Assert.Equal(messy.Split('\n').Length, (await agency.FactsAsync()).Split('\n').Length);
        Assert.Empty((await UndoAsync(agency, dele.Id)).Problems);
        Assert.Empty((await UndoAsync(agency, dele.Id)).Problems);

        Assert.Equal(empty, await agency.FactsAsync());
        var removed = await agency.Portal.ReadAsync(agency.WholeAgency, db => db.Changes.CountAsync(c => c.TableName == "sessions" && c.Act == "delete"));
        Assert.True(removed > 74, $"{removed} sessions in the trail"); // each of them stays in the trail as it was
    }

    [Fact]
    public async Task Import_on_which_something_rests_by_now_is_not_undone()
    {
        await using var agency = await TestAgency.CreateAsync(database, "W31");
        var dele = await agency.AddAsync(new PersonRow { Name = "Dele Okwarre", Email = "dele@before.example" });
        await agency.AddAsync(new PersonRoleRow { PersonId = dele.Id, Role = Role.Administrator, FromDay = new(2026, 8, 1) });
        await agency.ImportAsync(World.Files);
        await agency.ChangeAsync<LearnerRow>(l => l.Code == "WREN", l => l.Name = "Wren B.");
        var changed = await agency.FactsAsync();

        Assert.Contains("(learners)", Assert.Single((await UndoAsync(agency, dele.Id)).Problems).Message, StringComparison.Ordinal);
        Assert.Equal(changed, await agency.FactsAsync());
        Assert.Contains(Problem.NotFound, (await UndoAsync(agency, (await agency.CallerAsync(dele.Id))! with { Roles = FrozenSet<Role>.Empty })).Problems);
    }

    private static async Task<Outcome<UndoImport.Undone>> UndoAsync(TestAgency agency, int person) => await UndoAsync(agency, (await agency.CallerAsync(person))!);

    private static async Task<Outcome<UndoImport.Undone>> UndoAsync(TestAgency agency, Caller caller)
    {
        var last = await agency.Portal.ReadAsync(agency.WholeAgency, db => db.Imports.Where(i => i.UndoneAt == null).MaxAsync(i => i.Id));
        return await agency.Get<UndoImport>().RunAsync(caller, Guid.CreateVersion7(), new() { Import = last, Reason = "The wrong folder." });
    }

    [Fact]
    public async Task Cell_that_looks_like_a_formula_is_text()
    {
        await using var agency = await TestAgency.CreateAsync(database, "W8");
        await agency.ImportAsync(World.Files);

        await agency.ImportAsync(Messy, goodRows: true);

        Assert.Contains("=SUM(A1:A9)", await NotesAsync(agency), StringComparison.Ordinal);
        Assert.Contains("She said \"again\", twice;\nthen rested", await NotesAsync(agency), StringComparison.Ordinal);
    }

    [Fact]
    public async Task People_learners_and_services_stand_as_the_files_say()
    {
        await using var agency = await TestAgency.CreateAsync(database, "W9");
        await agency.ImportAsync(World.Files);

        var (odalys, ines, wren) = await agency.Portal.ReadAsync(agency.WholeAgency, async db => (
            await db.People.SingleAsync(p => p.Email == "odalys@tallowfern.example"), await db.People.SingleAsync(p => p.Email == "ines@family.example"),
            await db.Learners.SingleAsync(l => l.Code == "WREN")));
        var provider = (await agency.CallerAsync(odalys.Id))!;
        var mother = (await agency.CallerAsync(ines.Id))!;

        Assert.True(provider.Is(Role.Provider) && provider.OnTeam(wren.Id) && !provider.Manages(wren.Id));
        Assert.True(mother.IsFamilyOf(wren.Id) && !mother.IsStaff);
        var line = await agency.Portal.ReadAsync(agency.WholeAgency, db => db.Services.SingleAsync(s => s.Code == "JONAH-OT"));
        Assert.Equal(new(2027, 5, 1), line.ToDay);
        var versions = await agency.Portal.ReadAsync(agency.WholeAgency, db => db.ServiceVersions.Where(v => v.ServiceId == line.Id).OrderBy(v => v.FromDay).Select(v => v.Code).ToListAsync());
        Assert.Equal(["JONAH-OT", "JONAH-OT-2"], versions);
    }

    [Fact]
    public async Task New_agency_is_made_by_the_import_or_not_at_all()
    {
        await using var host = await TestAgency.CreateAsync(database, "W20");
        var import = host.Get<ImportFolder>();

        var refused = await import.RunAsync(new([.. World.Files, .. Messy.Select(f => f with { Name = "visits-2.csv" })], "FRESH", Today: ImportedAgency.Today));
        Assert.False(refused.Stored);
        Assert.Null(await AgencyIdAsync(host, "FRESH"));

        var stored = await import.RunAsync(new(World.Files, "FRESH", "dele@tallowfern.example", ImportedAgency.Today));
        Assert.True(stored.Stored);
        Assert.NotNull(await AgencyIdAsync(host, "fresh"));
        var withoutItsFile = await import.RunAsync(new([.. World.Files.Where(f => f.Name == "terms.csv")], "OTHER"));
        Assert.Equal("agency.json", Assert.Single(withoutItsFile.Problems).File);
        await Assert.ThrowsAsync<ImportFailure>(() => import.RunAsync(new(World.Files, "FRESH", "ghost@nowhere.example")));
    }

    private sealed record Expected(int Rows, int Good, IReadOnlyList<ExpectedProblem> Problems);

    private sealed record ExpectedProblem(int Line, string Column);

    /// <summary>The same table with a byte-order mark, semicolons, and the line ends asked for.</summary>
    private static byte[] Varied(byte[] content, string lineEnd, string first)
    {
        var text = new StringBuilder(first);
        var quoted = false;
        foreach (var c in Encoding.UTF8.GetString(content))
        {
            quoted ^= c == '"';
            text.Append(c == ',' && !quoted ? ';' : c);
        }
        // Cells that hold a semicolon are quoted in a file that is separated by them.
        var lines = text.ToString().Split("\r\n");
        return [.. Encoding.UTF8.Preamble, .. Encoding.UTF8.GetBytes(string.Join(lineEnd, lines.Select((line, i) => first.Length > 0 ? line : Quoted(line, content, i))))];
    }

    private static string Quoted(string line, byte[] content, int index)
    {
        var original = Encoding.UTF8.GetString(content).Split("\r\n")[index];
        return original.Contains('"', StringComparison.Ordinal) || !original.Contains(';', StringComparison.Ordinal) ? line
            : string.Join(';', original.Split(',').Select(c => c.Contains(';', StringComparison.Ordinal) ? $"\"{c}\"" : c));
    }

    private static Task<List<string>> ChangesAsync(TestAgency agency) => agency.Portal.ReadAsync(
        agency.WholeAgency, db => db.Changes.OrderBy(c => c.Id).Select(c => c.TableName + " " + c.Act).ToListAsync());

    private static Task<int> SessionsAsync(TestAgency agency) => agency.Portal.ReadAsync(
        agency.WholeAgency, db => db.Sessions.CountAsync(s => s.Live && s.Outcome != VisitOutcome.Planned));

    private static async Task<string> NotesAsync(TestAgency agency) => string.Join('\n', await agency.Portal.ReadAsync(agency.WholeAgency, db => (
        from s in db.Sessions
        join v in db.Services on new { s.AgencyId, Id = s.ServiceId } equals new { v.AgencyId, v.Id }
        where s.Live
        orderby s.OnDay, s.StartTime, v.Code
        select s.OnDay + " " + s.StartTime + " " + v.Code + " " + s.Credited + " " + s.Note).ToListAsync()));

    private static Task<int?> AgencyIdAsync(TestAgency host, string code) => host.Portal.ReadAsync(
        host.WholeAgency, db => db.Database.SqlQuery<int?>($"select portal.agency_id_of({code}) as \"Value\"").SingleAsync());
}
