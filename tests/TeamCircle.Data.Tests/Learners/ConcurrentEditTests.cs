using System.Globalization;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Learners;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;
using TeamCircle.Testing;
using TeamCircle.Testing.Faults;
using TeamCircle.Testing.Postgres;

namespace TeamCircle.Data.Tests.Learners;

/// <summary>T4 of docs/reliability.md: two people write the same part of "How we teach" again and again at the same time; 50 times each, or as often as TEAMCIRCLE_FAULTS says.</summary>
public sealed class ConcurrentEditTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    private const TeachPart Part = TeachPart.ShowingThings;

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Of_two_who_write_at_once_one_is_told_with_what_stands_now_and_no_writing_is_lost_from_the_trail()
    {
        var run = FaultRun.Begin("concurrent-edits", inTheSuite: 50);
        await using var agency = await TestAgency.CreateAsync(database, "EDITS");
        var team = await TestTeam.CreateAsync(agency);
        foreach (var person in new[] { team.Odalys, team.Bram })
            await agency.AddAsync(new PersonDisciplineRow { PersonId = person, Discipline = Discipline.Vision });

        var refused = await Task.WhenAll(WriteAsync(agency, team, team.Odalys, run.Faults), WriteAsync(agency, team, team.Bram, run.Faults));

        var changes = await agency.Portal.ReadAsync(agency.WholeAgency, db => db.Changes.Where(c => c.TableName == "teach_parts").OrderBy(c => c.Id).ToListAsync(Stop), Stop);
        Assert.Equal(2 * run.Faults, changes.Count); // each that was told "saved", and no other
        string? before = null;
        foreach (var change in changes)
        {
            Assert.Equal(before, TextIn(change.Before)); // nobody's writing was written over unseen
            before = TextIn(change.After);
        }
        Assert.Equal(2 * run.Faults, changes.Select(c => TextIn(c.After)).Distinct().Count());
        run.Say(string.Create(CultureInfo.InvariantCulture, $"2 x {run.Faults} writings saved, {refused.Sum()} refused with what stood then, {changes.Count} changes."));
        run.Write();
        Assert.True(refused.Sum() > 0, "The two never met; the test was blind.");
    }

    /// <summary>Writes so often until it is saved.</summary>
    /// <returns>How often somebody else was first.</returns>
    private static async Task<int> WriteAsync(TestAgency agency, TestTeam team, int person, int times)
    {
        var caller = await team.CallerAsync(person);
        var refused = 0;
        for (var i = 0; i < times; i++)
        {
            var text = string.Create(CultureInfo.InvariantCulture, $"Writing {i} of person {person}");
            var open = (await agency.Get<EditTeachPart>().StartAsync(caller, team.Wren, Part, Stop))!;
            while (true)
            {
                var outcome = await agency.Get<EditTeachPart>().RunAsync(caller, Guid.CreateVersion7(), team.Wren, Part, new() { Text = text, Version = open.Version }, Stop);
                if (outcome.Value is not null)
                    break;
                Assert.Equal(Problem.VersionField, Assert.Single(outcome.Problems).Field);
                refused++;
                var stands = (await agency.Get<EditTeachPart>().StartAsync(caller, team.Wren, Part, Stop))!; // what the form shows beside what was typed
                Assert.True(stands.Version > open.Version && stands.Text != open.Text);
                open = stands;
            }
        }
        return refused;
    }

    private static string? TextIn(string? row) => row is null ? null : JsonDocument.Parse(row).RootElement.GetProperty("text").GetString();
}
