using System.Text.Json;
using NodaTime;
using NodaTime.Text;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Time;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Closing;
using TeamCircle.Data.Learners;
using TeamCircle.Data.People;
using TeamCircle.Data.Progress;

namespace TeamCircle.Testing.Faults;

/// <summary>
/// Who sends in a fault test, and what. Portals that are killed go by the clock on the wall, so whoever sends has been on the team since 2000, and
/// everything took place in the past.
/// </summary>
public sealed class FaultTeam
{
    /// <summary>How many acts a batch has: three practices and a visit that are stored, a probe that rules refuse, and one in a closed count.</summary>
    public const int Batch = 6;

    /// <summary>How many of a batch are stored, from its first on; the others are set aside.</summary>
    public const int Stored = 4;

    /// <summary>How many of these are practices, from the first on: one that is held keeps nothing else waiting, while a visit keeps those of its provider's day.</summary>
    public const int Practices = 3;

    /// <summary>Minutes of every visit.</summary>
    public const int Minutes = 15;

    private static readonly LocalDate Long = new(2000, 1, 1), Closed = new(2020, 8, 17);
    private readonly TestAgency _agency;
    private readonly TestTeam _team;
    private readonly TestPractice _practice;
    private int _service;
    private int _visits;

    private FaultTeam(TestAgency agency, TestTeam team, TestPractice practice) => (_agency, _team, _practice) = (agency, team, practice);

    public static async Task<FaultTeam> CreateAsync(TestAgency agency, TestTeam team)
    {
        var made = new FaultTeam(agency, team, await TestPractice.CreateAsync(agency, team));
        await made.AddServiceAsync();
        var period = await agency.AddAsync(new PeriodRow { Name = "Closed long ago", StartDay = Closed, EndDay = Closed.PlusDays(60) });
        // A count begins with its first fact.
        await agency.AddAsync(new ProbeRow { Id = Guid.CreateVersion7(), LearnerId = team.Wren, GoalId = team.Gaze.Id, ProviderId = team.Odalys, OnDay = Closed, Value = 30, Kind = ProbeKind.Teaching });
        await agency.ChangeAsync<LearnerPeriodRow>(l => l.PeriodId == period.Id, l =>
            (l.ClosedAt, l.ClosedBy, l.FirstDay, l.LastDay) = (Instant.FromUtc(2020, 11, 2, 12, 0), team.Marisol, period.StartDay, period.EndDay));
        return made;
    }

    /// <summary>A provider of Wren's; the account comes with the agency's next accounts.</summary>
    public async Task<PersonRow> PersonAsync(string name)
    {
        var person = await _agency.AddAsync(new PersonRow { Email = $"{name}@tallowfern.example", Name = $"{name} Abiolek" });
        await _agency.AddAsync(new PersonRoleRow { PersonId = person.Id, Role = Role.Provider, FromDay = Long });
        await _agency.AddAsync(new RelationRow { PersonId = person.Id, LearnerId = _team.Wren, Kind = Relation.Team, FromDay = Long });
        return person;
    }

    public Task<Guid> DeviceAsync(PersonRow person) => _practice.DeviceAsync(_team, person.Id);

    /// <summary>New acts of <see cref="Batch"/>; every visit has a time of its own.</summary>
    public JsonElement[] Acts() =>
    [
        Practice(), Practice(), Practice(), Visit(),
        TestPractice.Sent("probe", new { goalId = _team.Gaze.Id, onDay = "2019-09-16", value = 180 }),
        TestPractice.Sent("probe", new { goalId = _team.Gaze.Id, onDay = LocalDatePattern.Iso.Format(Closed), value = 40, opportunities = 8, kind = "teaching" }),
    ];

    private JsonElement Practice() => _practice.Sent(_practice.Record() with { StartedAt = Instant.FromUtc(2019, 9, 16, 16, 10), EndedAt = Instant.FromUtc(2019, 9, 16, 16, 15) });

    private JsonElement Visit()
    {
        var visit = Interlocked.Increment(ref _visits);
        var (day, start) = (Long.PlusDays(31 + visit / 4), new LocalTime(8 + visit % 4 * 2, 0));
        return TestPractice.Sent("visit", new
        {
            services = new[] { _service },
            onDay = LocalDatePattern.Iso.Format(day),
            start = LocalTimePattern.CreateWithInvariantCulture("H:mm").Format(start),
            end = LocalTimePattern.CreateWithInvariantCulture("H:mm").Format(start.PlusMinutes(Minutes)),
        });
    }

    private async Task AddServiceAsync()
    {
        var service = await _agency.AddAsync(new ServiceRow
        {
            LearnerId = _team.Wren,
            PlanId = _team.Vision.PlanId,
            Code = "LONG",
            Position = 90,
            Discipline = Discipline.Vision,
            Kind = ServiceKind.Direct,
            EveryUnit = EveryUnit.Week,
            FromDay = Long,
            ToDay = new(2100, 1, 1),
        });
        await _agency.AddAsync(new ServiceVersionRow { LearnerId = _team.Wren, ServiceId = service.Id, Code = "LONG", FromDay = Long, Quantity = 60 });
        _service = service.Id;
    }
}
