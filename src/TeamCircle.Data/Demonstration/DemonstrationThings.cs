using System.Data;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Core.Routines;
using TeamCircle.Core.Things;
using TeamCircle.Data.People;
using TeamCircle.Data.Road;
using TeamCircle.Data.Routines;
using TeamCircle.Data.Things;
using static TeamCircle.Data.Demonstration.Demonstrated;
using static TeamCircle.Data.Demonstration.DemonstrationFiles;

namespace TeamCircle.Data.Demonstration;

/// <summary>What the plan promises Wren beside services: a palm switch that was out of order for two weeks in which nothing was learned with it, a wedge that is in
/// place, a training that is not; what her mother taps, and where the team's days begin.</summary>
internal sealed class DemonstrationThings(Portal portal, ReadCaller callers, Scope scope, TimeProvider clock, SchoolYear year)
{
    /// <summary>The weeks, counted from 0, in which the palm switch was out of order; the demonstration's probes stand still in them.</summary>
    private const int FirstWeekOut = 7, LastWeekOut = 8;

    public async Task AddAsync(CancellationToken stop)
    {
        var (people, goals, routines, learners) = await portal.ReadAsync(scope, async db => (
            await db.People.Where(p => p.AgencyId == scope.AgencyId).ToDictionaryAsync(p => p.Email, p => p.Id, stop),
            await db.Goals.Where(g => g.AgencyId == scope.AgencyId).ToDictionaryAsync(g => g.Code, g => g.Id, stop),
            await db.Routines.Where(r => r.AgencyId == scope.AgencyId).ToDictionaryAsync(r => r.Name, r => r.Id, stop),
            await db.Learners.Where(l => l.AgencyId == scope.AgencyId).ToDictionaryAsync(l => l.Code, l => l.Id, stop)), stop);
        var marisol = (await callers.RunAsync(scope.AgencyId, people[Marisol], stop))!;
        PromiseThing.Input Promise(ThingKind kind, string name, string words, string owner) => new()
        {
            Learner = learners["TF07"],
            Kind = kind,
            Name = name,
            PlanWords = words,
            Owner = people[owner],
            PromisedOn = year.PlanStart,
            DueOn = year.FirstDay.PlusDays(13),
        };
        var palm = Promise(ThingKind.Device, "Palm switch with its box", "A switch that Wren can press with her palm, with a box for a household appliance.", Tomasz) with
        {
            Goals = [goals["TF07-PRESSES"]],
            Routines = [.. routines.Where(r => r.Key == "Banana shake").Select(r => r.Value)],
        };
        await AddAsync(marisol, palm, [
            new() { Act = ThingAct.InPlace, OnDay = year.On(0, IsoDayOfWeek.Tuesday), Where = ThingPlace.Home },
            new()
            {
                Act = ThingAct.Broken,
                OnDay = year.On(FirstWeekOut, IsoDayOfWeek.Monday),
                Words = "The cable is torn where it enters the box.",
                Meanwhile = "Press the elbow switch in its place, and say so in the note.",
            },
            new() { Act = ThingAct.Works, OnDay = year.On(LastWeekOut + 1, IsoDayOfWeek.Monday), Words = "New cable, with a clip that takes the pull." },
        ], stop);
        await AddAsync(marisol, Promise(ThingKind.Aid, "Wedge for lying on her side", "A wedge for positioning on her side.", Priya),
            [new() { Act = ThingAct.InPlace, OnDay = year.On(1, IsoDayOfWeek.Friday), Where = ThingPlace.Home }], stop);
        await AddAsync(marisol, Promise(ThingKind.Training, "Lifting onto the mat, for the nurse", "Training of the home nurse in the lift that the plan describes.", Priya), [], stop);
        await AddTapsAsync(people[Ines], learners["TF07"], routines.GetValueOrDefault("Warm towel hello"), stop);
        await AddStartsAsync([people[Odalys], people[Bram], people[Tomasz]], stop);
    }

    /// <summary>Wren's mother may tap, and did so on two days of last week.</summary>
    private async Task AddTapsAsync(int ines, int wren, int towel, CancellationToken stop)
    {
        await using var work = await portal.OpenAsync(scope, IsolationLevel.ReadCommitted, stop: stop);
        var agency = await work.Db.Agencies.SingleAsync(a => a.Id == scope.AgencyId, stop);
        (agency.HomeTaps, agency.HomeTapsWhy) = (true, "Families asked for it; each case manager says who may.");
        foreach (var seat in await work.Db.Relations.Where(r => r.AgencyId == scope.AgencyId && r.LearnerId == wren && r.PersonId == ines && r.Kind == Relation.Family).ToListAsync(stop))
            seat.TapsAtHome = true;
        foreach (var (day, answer) in towel == 0 ? [] : new[] { (IsoDayOfWeek.Monday, HomeAnswer.Done), (IsoDayOfWeek.Wednesday, HomeAnswer.NotUpToIt) })
        {
            work.Db.Add(new HomeLogRow
            {
                AgencyId = scope.AgencyId,
                LearnerId = wren,
                RoutineId = towel,
                OnDay = year.On(SchoolYear.ThisWeek - 1, day),
                Who = "Ines Belmares",
                Answer = answer,
                RecordedBy = ines,
                ByFamily = true,
            });
        }
        await work.Db.SaveChangesAsync(stop);
        await work.CommitAsync(stop);
    }

    /// <summary>Three of the team begin their days at the cooperative's office.</summary>
    private async Task AddStartsAsync(int[] people, CancellationToken stop)
    {
        await using var work = await portal.OpenAsync(scope, IsolationLevel.ReadCommitted, stop: stop);
        var office = await work.Db.Places.Where(p => p.AgencyId == scope.AgencyId && p.Code == "B0").Select(p => p.Id).SingleAsync(stop);
        work.Db.AddRange(people.Select(p => new RoadStartRow { AgencyId = scope.AgencyId, PersonId = p, PlaceId = office }));
        await work.Db.SaveChangesAsync(stop);
        await work.CommitAsync(stop);
    }

    private async Task AddAsync(Caller caller, PromiseThing.Input promise, IReadOnlyList<NoteThing.Input> notes, CancellationToken stop)
    {
        var thing = Must(await new PromiseThing(portal, clock).RunAsync(caller, Guid.CreateVersion7(), promise, stop)).Thing;
        foreach (var (note, i) in notes.Select((n, i) => (n, i)))
        {
            if (note.OnDay <= caller.Today)
                Must(await new NoteThing(portal).RunAsync(caller, Guid.CreateVersion7(), note with { Learner = promise.Learner, Thing = thing, Version = i + 1 }, stop));
        }
    }
}
