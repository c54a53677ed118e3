using NodaTime;
using TeamCircle.Core.Import;

namespace TeamCircle.Core.Tests.Import;

/// <summary>A OneRoster 1.2 set of one learner, one parent and one teacher, and what is wrong with it once one cell is another.</summary>
public sealed class ReadRosterTests
{
    private static readonly Dictionary<FileKind, string[]> Whole = new()
    {
        [FileKind.RosterManifest] = ["propertyName,value", "oneroster.version,1.2", "file.orgs,bulk", "file.users,bulk", "file.roles,bulk", "file.academicSessions,bulk", "file.classes,delta"],
        [FileKind.RosterOrgs] = ["sourcedId,name,type", "o,Cattail Lane School,school"],
        [FileKind.RosterUsers] =
        [
            "sourcedId,status,enabledUser,givenName,familyName,identifier,email,agentSourcedIds,primaryOrgSourcedId,metadata.bus",
            "l,,true,Wren,Belmares,WREN,,,o,7",
            "p,,true,Ines,Belmares,,ines@family.example,l,o,",
            "t,,true,Odalys,Ferreira,,odalys@tallowfern.example,,o,",
        ],
        [FileKind.RosterRoles] = ["userSourcedId,role,beginDate,endDate,orgSourcedId", "l,student,,,o", "p,parent,,,o", "t,teacher,2026-08-01,2027-06-01,o"],
        [FileKind.RosterSessions] = ["sourcedId,title,type,startDate,endDate,parentSourcedId", "y,2026-2027,schoolYear,2026-08-17,2027-05-29,", "q,Period 1,gradingPeriod,2026-08-17,2026-10-17,y"],
    };

    [Fact]
    public void Whole_set_gives_rows_of_our_own_files_without_a_word_to_check()
    {
        var reading = Read(Whole);

        Assert.Empty(reading.Problems);
        Assert.Empty(reading.Notes);
        Assert.Equal("WREN Wren Belmares ines@family.example", string.Join('|', reading.Learners.Select(l => $"{l.Code} {l.Name} {string.Join(';', l.Family)}")));
        Assert.Equal(["odalys@tallowfern.example provider", "ines@family.example family"], reading.People.Select(p => $"{p.Email} {string.Join(';', p.Roles)}"));
        Assert.Equal(new RosterSpan("2026-2027", new(2026, 8, 17), new(2027, 5, 28)), Assert.Single(reading.Terms));
        Assert.Equal(new RosterSpan("Period 1", new(2026, 8, 17), new(2026, 10, 16)), Assert.Single(reading.Periods));
    }

    [Theory]
    [InlineData("oneroster.version,1.2", "oneroster.version,1.1", "manifest.csv 2 value")]
    [InlineData("oneroster.version,1.2", "manifest.version,1.0", "manifest.csv 1 oneroster.version")]
    [InlineData("file.users,bulk", "file.users,delta", "manifest.csv 4 value")]
    [InlineData("file.users,bulk", "file.users,absent", "manifest.csv 4 value")]
    [InlineData("file.roles,bulk", "file.results,bulk", "manifest.csv 1 file.roles")]
    [InlineData("l,,true", "l,tobedeleted,true", "users.csv 2 status")]
    [InlineData("l,,true", "l,,yes", "users.csv 2 enabledUser")]
    [InlineData("l,,true", "p,,true", "roles.csv 2 userSourcedId; users.csv 3 sourcedId")]
    [InlineData("Ines,Belmares,,ines@family.example", "Ines,,,ines", "users.csv 3 email; users.csv 3 familyName")]
    [InlineData("odalys@tallowfern.example", "", "users.csv 4 email")]
    [InlineData("odalys@tallowfern.example", "ines@family.example", "users.csv 3 email")]
    [InlineData("ines@family.example,l,", "ines@family.example,x,", "users.csv 3 agentSourcedIds")]
    [InlineData("WREN,,,o", "WREN,,,x", "users.csv 2 primaryOrgSourcedId")]
    [InlineData("p,parent,,,o", "p,neighbor,,,x", "roles.csv 3 orgSourcedId; roles.csv 3 role")]
    [InlineData("p,parent,,,o", "p,parent,soon,,o", "roles.csv 3 beginDate")]
    [InlineData("2026-08-17,2027-05-29", "2026-08-17,2026-08-17", "academicSessions.csv 2 endDate")]
    [InlineData("schoolYear,2026", "holiday,2026", "academicSessions.csv 2 type")]
    [InlineData("givenName,familyName", "firstName,familyName", "users.csv 1 givenName")]
    public void Cell_that_is_wrong_is_named_by_file_line_and_column(string cell, string wrong, string expected)
    {
        Assert.Equal(expected, string.Join("; ", Read(Changed(cell, wrong)).Problems.Select(p => $"{p.File} {p.Line} {p.Column}").Order(StringComparer.Ordinal)));
    }

    [Theory]
    [InlineData("t,,true", "t,,false", "users.csv 0 enabledUser", "ines@family.example")]
    [InlineData("2026-08-01,2027-06-01", "2026-08-01,2026-10-02", "users.csv 0 ; roles.csv 0 ", "ines@family.example")]
    [InlineData("ines@family.example,l,", "ines@family.example,t,", "users.csv 3 agentSourcedIds", "odalys@tallowfern.example")]
    [InlineData("ines@family.example", "", "users.csv 3 email", "odalys@tallowfern.example")]
    [InlineData("p,parent", "p,relative", "users.csv 3 ", "ines@family.example odalys@tallowfern.example")]
    [InlineData("t,teacher", "t,principal", "users.csv 4 ", "ines@family.example odalys@tallowfern.example")]
    [InlineData("WREN", "", "users.csv 2 identifier", "ines@family.example odalys@tallowfern.example")]
    [InlineData("q,Period 1,gradingPeriod", "q,2026-2027,term", "academicSessions.csv 0 ", "ines@family.example odalys@tallowfern.example")]
    public void Who_is_left_out_or_must_be_looked_at_is_said(string cell, string other, string noted, string people)
    {
        var reading = Read(Changed(cell, other));

        Assert.Empty(reading.Problems);
        Assert.Equal(people, string.Join(' ', reading.People.Select(p => p.Email).Order(StringComparer.Ordinal)));
        if (noted.StartsWith("academic", StringComparison.Ordinal))
            Assert.Equal(new LocalDate(2026, 10, 16), Assert.Single(reading.Terms).Last); // the finer of two, and only that one
        else
            Assert.Equal(noted.Split("; ").Order(StringComparer.Ordinal), reading.Notes.Select(n => $"{n.File} {n.Line} {n.Column}").Order(StringComparer.Ordinal));
    }

    private static Dictionary<FileKind, string[]> Changed(string cell, string other)
    {
        Assert.Contains(Whole.Values.SelectMany(lines => lines), line => line.Contains(cell, StringComparison.Ordinal));
        return Whole.ToDictionary(f => f.Key, f => f.Value.Select(line => line.Replace(cell, other, StringComparison.Ordinal)).ToArray());
    }

    private static RosterReading Read(Dictionary<FileKind, string[]> set) => ReadRoster.Run(
        [.. set.Select(f => new RawTable(f.Key, FileShape.Of(f.Key).FileName, 1, f.Value[0].Split(','), [.. f.Value.Skip(1).Select((line, i) => new RawRow(i + 2, line.Split(',')))]))],
        new LocalDate(2026, 10, 2));
}
