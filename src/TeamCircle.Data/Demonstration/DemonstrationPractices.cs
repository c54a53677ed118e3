using System.Globalization;
using TeamCircle.Core.People;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Routines;
using TeamCircle.Core.Time;
using TeamCircle.Data.Practice;
using TeamCircle.Data.Routines;
using static NodaTime.IsoDayOfWeek;
using static TeamCircle.Data.Demonstration.DemonstrationFiles;

namespace TeamCircle.Data.Demonstration;

/// <summary>How the demonstration's team has watered the herbs with Wren: by several hands, under conditions that differ, before and after the wait
/// was lengthened.</summary>
/// <param name="record">Through which each practice is stored, as the person who practised.</param>
/// <param name="versions">The two versions of the card, the second with the longer wait.</param>
internal sealed class DemonstrationPractices(RecordPractice record, SchoolYear year, DateTimeZone zone, IReadOnlyList<RoutineVersionRow> versions)
{
    /// <summary>The week in which the team agreed on the longer wait.</summary>
    public const int LongerFrom = SchoolYear.PeriodWeeks - 1;

    /// <summary>Under which conditions: from which side, where, in which state. Then what became of each time that she was asked: the seconds until she
    /// responded, h and the seconds after which somebody helped, or no where she said no.</summary>
    private static readonly (int Week, IsoDayOfWeek Day, string Who, string Conditions, string Trials)[] Done =
    [
        (1, Tuesday, Bram, "left chair quiet", "8.5 h10 h10"), (1, Wednesday, Tomasz, "left chair active", "h10 h9.5 h10"),
        (2, Monday, Odalys, "left chair quiet", "6.5 9.5 h10"), (2, Tuesday, Bram, "left chair drowsy", "h10 h10 no"),
        (2, Thursday, Marisol, "right chair quiet", "h10 h6 h10"), (3, Tuesday, Bram, "left chair quiet", "7 9 h10"),
        (3, Wednesday, Tomasz, "left chair quiet", "9.5 h10 h10"), (4, Monday, Odalys, "left mat quiet", "5.5 8 h10"),
        (4, Tuesday, Bram, "left chair quiet", "6 9.5 9.5"), (4, Thursday, Marisol, "right chair active", "h10 h7 no"),
        (5, Monday, Odalys, "left chair quiet", "7 8.5 h10"), (5, Tuesday, Bram, "left chair active", "8 h10 h10"),
        (6, Wednesday, Tomasz, "left chair quiet", "6.5 9 h10"), (6, Thursday, Bram, "right chair quiet", "9.5 h10 h10"),
        (7, Monday, Odalys, "left mat quiet", "4.5 7.5 9.5"), (7, Tuesday, Bram, "left chair drowsy", "h10 h10 h10"),
        (8, Tuesday, Bram, "left chair quiet", "6 11 11.5"), (8, Wednesday, Tomasz, "left chair quiet", "7.5 10.5 h12"),
        (8, Thursday, Marisol, "right chair quiet", "11 h9 h12"), (9, Monday, Odalys, "left chair quiet", "5 8.5 10.5"),
        (9, Tuesday, Bram, "left chair active", "8 11.5 h12"), (10, Monday, Odalys, "left mat quiet", "4.5 7 11"),
        (10, Tuesday, Bram, "left chair quiet", "5.5 9 10.5"), (10, Thursday, Tomasz, "left chair quiet", "6 10.5 h12"),
        (11, Tuesday, Bram, "right chair quiet", "9 11.5 h12"), (11, Thursday, Marisol, "left chair quiet", "7 h8 10"),
        (12, Monday, Odalys, "left chair quiet", "4 7.5 9.5"), (12, Tuesday, Bram, "left chair quiet", "5 8 11"),
        (12, Wednesday, Tomasz, "left chair active", "7.5 11 no"), (13, Monday, Odalys, "left chair drowsy", "9.5 h12 h12"),
        (13, Tuesday, Bram, "left chair quiet", "4.5 7 10"), (13, Thursday, Marisol, "left chair quiet", "6 9.5 11.5"),
    ];

    /// <summary>Of some of them a second observer scored the same: what they saw otherwise, or the same where it is empty.</summary>
    private static readonly (int Week, IsoDayOfWeek Day, string Who, string Trials)[] Observed =
        [(6, Wednesday, Bram, ""), (9, Tuesday, Tomasz, "8 h10.5 h12"), (12, Monday, Bram, ""), (13, Tuesday, Tomasz, "")];

    public async Task AddAsync(Func<string, Task<Caller>> callers, CancellationToken stop)
    {
        foreach (var (week, day, who, conditions, trials) in Done)
        {
            var on = year.On(week, day);
            if (on == year.Storm || on == year.StaffDay)
                continue;
            var version = versions[week < LongerFrom ? 0 : 1];
            var practice = Counted(Practice(version, on, conditions, trials), week);
            await StoreAsync(await callers(who), practice, stop);
            foreach (var second in Observed.Where(o => (o.Week, o.Day) == (week, day)))
            {
                var seen = Practice(version, on, conditions, second.Trials.Length > 0 ? second.Trials : trials) with { Observes = practice.Id };
                await StoreAsync(await callers(second.Who), seen, stop);
            }
        }
    }

    private async Task StoreAsync(Caller who, PracticeRecord practice, CancellationToken stop)
    {
        var outcome = await record.RunAsync(who, Guid.CreateVersion7(), new(practice), stop);
        if (outcome.Value is null)
            throw new InvalidOperationException("A practice of the demonstration was refused: " + string.Join(" ", outcome.Problems.Select(p => p.Message)));
    }

    private PracticeRecord Practice(RoutineVersionRow version, LocalDate on, string conditions, string trials)
    {
        var card = RoutineContent.Read(version.Content);
        var asked = card.Steps.Where(s => s.Kind == StepKind.Response).Zip(trials.Split(' '));
        var started = WallTime.Resolve(on + new LocalTime(8, 42), zone).ToInstant();
        return new()
        {
            Id = Guid.CreateVersion7(),
            Routine = version.RoutineId,
            Version = version.Id,
            Entry = PracticeEntry.Live,
            StartedAt = started,
            EndedAt = started + Duration.FromMinutes(6),
            Trials = [.. asked.Select((step, i) => Asked(step.First.Key, card.Prompts[0].Key, i * 90_000, step.Second))],
            Steps = [.. card.Steps.Select(s => new StepDone(s.Key, HowDone.AsWritten))],
            Conditions = Conditions(card, conditions.Split(' ')),
        };
    }

    /// <summary>What was written down of the chair and the switch: she sits a little longer as the weeks go by, the mark at her elbow fades, and
    /// she presses less often when nobody asked.</summary>
    private static PracticeRecord Counted(PracticeRecord practice, int week)
    {
        var alone = practice.Trials.Count(t => t.Events.All(e => e.Kind is not (TrialEventKind.Prompt or TrialEventKind.Refusal)));
        var isTired = practice.Conditions.State.Start == StateOfLearner.Drowsy;
        var minutes = (isTired ? 12 : 18) + week + (practice.Trials.Count + (week * 5)) % 7;
        return practice with
        {
            UnaskedClosures = [.. Enumerable.Range(0, Math.Max(0, 5 - (week / 3) + (week % 2))).Select(i => 40_000 + (i * 31_000))],
            Conditions = practice.Conditions with
            {
                TimeIn = "08:35",
                TimeOut = new LocalTime(8, 35).PlusMinutes(minutes).ToString("HH:mm", CultureInfo.InvariantCulture),
                Tilt = week < LongerFrom ? "15 degrees back" : "10 degrees back",
                Tolerance = isTired ? "slid down, set up again once" : "well",
                Skin = week < 5 ? "mark at the right elbow, gone after eight minutes" : "clear",
                Switch = "Round switch",
                SwitchSite = "elbow",
                SwitchSide = "right",
                Hits = alone + 1,
                Misses = practice.Trials.Count - alone + (week < 6 ? 1 : 0),
            },
        };
    }

    private static Conditions Conditions(RoutineContent card, string[] words) => new()
    {
        State = new(words[2] switch { "drowsy" => StateOfLearner.Drowsy, "active" => StateOfLearner.ActiveAlert, _ => StateOfLearner.QuietAlert }),
        Side = words[0] == "left" ? card.Side : "From her right.",
        Height = card.Height,
        Distance = card.Distance,
        Light = card.Light,
        Background = card.Background,
        Position = words[1] == "chair" ? card.Position : "On her left side on the mat, the wedge behind her back.",
    };

    private static Trial Asked(string step, string prompt, int at, string became)
    {
        var helped = became[0] == 'h';
        var after = at + (became == "no" ? 4_000 : (int)(decimal.Parse(became.TrimStart('h'), CultureInfo.InvariantCulture) * 1000));
        TrialEvent[] middle = became == "no" ? [new() { At = after, Kind = TrialEventKind.Refusal }]
            : helped ? [new() { At = after, Kind = TrialEventKind.Prompt, Prompt = prompt }, Response(after + 3_500)]
            : [new() { At = after, Kind = TrialEventKind.Begun }, Response(after + 2_000)];
        return new()
        {
            Id = Guid.CreateVersion7(),
            Step = step,
            Events = [new() { At = at, Kind = TrialEventKind.CueEnded }, .. middle, .. became == "no" ? [] : new TrialEvent[] { new() { At = after + 5_000, Kind = TrialEventKind.End } }],
        };
    }

    private static TrialEvent Response(int at) => new() { At = at, Kind = TrialEventKind.Response, Response = ResponseKind.HopedFor };
}
