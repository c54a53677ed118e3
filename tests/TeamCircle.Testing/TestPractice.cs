using System.Text.Json;
using NodaTime;
using TeamCircle.Core;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Routines;
using TeamCircle.Data.Devices;
using TeamCircle.Data.Routines;

namespace TeamCircle.Testing;

/// <summary>A routine of <see cref="TestTeam"/>'s Wren with one version, and what a device sends about it.</summary>
public sealed class TestPractice
{
    private readonly TestAgency _agency;

    private TestPractice(TestAgency agency, RoutineVersionRow version) => (_agency, Version) = (agency, version);

    public RoutineVersionRow Version { get; }

    /// <summary>Two steps, of which one asks for a response with two prompts; 12 s and 8 s of wait; it serves <paramref name="goals"/>.</summary>
    public static RoutineContent Card(params int[] goals) => new()
    {
        Cue = "the small can",
        Say = "Wren, time to water",
        Procedure = PromptProcedure.LeastToMost,
        WaitSeconds = 12,
        Prompts = [new("point", "point at the switch"), new("say", "say: your turn", WaitSeconds: 8)],
        Steps = [new("show", StepKind.Shown, "Show the can on her right.", []), new("press", StepKind.Response, "She presses with her elbow.", goals)],
    };

    public static async Task<TestPractice> CreateAsync(TestAgency agency, TestTeam team, string name = "Watering the herbs", RoutineContent? card = null)
    {
        var routine = await agency.AddAsync(new RoutineRow { LearnerId = team.Wren, Name = name, ObjectCue = "the small can" });
        var version = await agency.AddAsync(new RoutineVersionRow
        {
            LearnerId = team.Wren,
            RoutineId = routine.Id,
            Number = 1,
            Content = (card ?? Card(team.Gaze.Id)).Write(),
            WrittenBy = team.Odalys,
            WrittenAt = Instant.FromUtc(2026, 9, 1, 12, 0),
        });
        return new(agency, version);
    }

    /// <summary>A practice of five minutes on Tuesday 15 September at 9:10 in the agency's zone: one trial without help, one after a prompt.</summary>
    public PracticeRecord Record(Guid? visit = null) => new()
    {
        Id = Guid.CreateVersion7(),
        Routine = Version.RoutineId,
        Version = Version.Id,
        Visit = visit,
        Entry = PracticeEntry.Live,
        StartedAt = Instant.FromUtc(2026, 9, 15, 16, 10),
        EndedAt = Instant.FromUtc(2026, 9, 15, 16, 15),
        Trials =
        [
            Trial((0, TrialEventKind.CueEnded), (10_000, TrialEventKind.Begun), (22_000, TrialEventKind.Response), (23_000, TrialEventKind.End)),
            Trial((60_000, TrialEventKind.CueEnded), (72_500, TrialEventKind.Prompt), (76_000, TrialEventKind.Response), (77_000, TrialEventKind.End)),
        ],
        Steps = [new("show", HowDone.AsWritten), new("press", HowDone.AsWritten)],
    };

    /// <summary>Enrols a device for a person.</summary>
    public async Task<Guid> DeviceAsync(TestTeam team, int person, string name = "Tablet") =>
        (await _agency.Get<EnrolDevice>().RunAsync(await team.CallerAsync(person), new(name))).Value!.Device;

    public static JsonElement Sent(string kind, object body, Guid? id = null, int format = SentOperation.MostFormat, int? skewMs = null) =>
        JsonSerializer.SerializeToElement(
            new { id = id ?? Guid.CreateVersion7(), format, kind, made = Instant.FromUtc(2026, 9, 15, 16, 16), skewMs, body }, DeviceJson.Options);

    public JsonElement Sent(PracticeRecord record, Guid? id = null, int? skewMs = null) => Sent("practice", record, id, skewMs: skewMs);

    private static Trial Trial(params (int At, TrialEventKind Kind)[] events) => new()
    {
        Id = Guid.CreateVersion7(),
        Step = "press",
        Events = [.. events.Select(e => new TrialEvent { At = e.At, Kind = e.Kind, Response = e.Kind == TrialEventKind.Response ? ResponseKind.HopedFor : null })],
    };
}
