using System.Text.Json.Nodes;
using TeamCircle.Core.Cases;

namespace TeamCircle.Core.Tests.MakeUps;

public sealed class MakeUpCaseTests
{
    private const string Good = """
        {"kind": "makeUp", "days": ["2026-10-05", "2026-10-06"], "gridMinutes": 15, "seconds": 5,
         "needs": [{"line": "OT", "window": "2026-09-28", "learner": "W-1", "provider": "BN", "place": "home 1", "minutes": 60, "smallest": 30, "largest": 45},
                   {"line": "training", "window": "2026-09-28", "learner": null, "provider": "BN", "place": "office", "minutes": 30, "smallest": 30, "largest": 30}],
         "providers": [{"id": "BN", "hours": [{"date": "2026-10-05", "start": "09:00", "end": "10:00"}, {"date": "2026-10-06", "start": "08:00", "end": "24:00"}],
                        "dailyLimit": null}],
         "learners": [{"id": "W-1", "hours": [{"date": "2026-10-05", "start": "09:00", "end": "09:45"}, {"date": "2026-10-06", "start": "09:00", "end": "12:00"}],
                       "dailyLimit": 120}],
         "busy": [{"provider": "BN", "learner": "W-1", "place": "home 1", "date": "2026-10-06", "start": "11:00", "end": "11:45"}],
         "travel": [{"from": "home 1", "to": "office", "minutes": 20}]}
        """;

    [Fact]
    public void Case_is_answered_with_visits_what_stays_unmet_and_levels()
    {
        var answer = JsonNode.Parse(CaseFile.WorkOut(Good))!;

        Assert.Equal(["unmet", "extraTrips", "visits", "days"], answer["levels"]!.AsArray().Select(l => (string?)l!["name"]));
        Assert.Equal([0, 2, 3, 2], answer["levels"]!.AsArray().Select(l => (int)l!["value"]!));
        Assert.All(answer["levels"]!.AsArray(), l => Assert.True((bool)l!["proven"]!));
        Assert.Empty(answer["unmet"]!.AsArray());
        var first = answer["visits"]![0]!;
        Assert.Equal(("OT", "2026-09-28", "2026-10-05"), ((string?)first["line"], (string?)first["window"], (string?)first["date"]));
        Assert.Equal(3, answer["visits"]!.AsArray().Count);
    }

    [Fact]
    public void Unmet_minutes_name_their_window_and_the_limit()
    {
        var file = JsonNode.Parse(Good)!;
        file["learners"]![0]!["dailyLimit"] = 20;

        var unmet = JsonNode.Parse(CaseFile.WorkOut(file.ToJsonString()))!["unmet"]!.AsArray();

        Assert.Equal("""[{"line":"OT","window":"2026-09-28","minutes":60,"because":"learnerDay"}]""", unmet.ToJsonString());
    }

    [Theory]
    [InlineData("gridMinutes", 0, "gridMinutes: must be from 1 to 1440, not 0")]
    [InlineData("days/1", "2026-10-05", "days: names a day twice")]
    [InlineData("days/0", "5 October", "days[0]: must be a date such as 2026-08-17")]
    [InlineData("needs/0/provider", "XX", "needs[0].provider: is not among providers")]
    [InlineData("needs/0/learner", "W-2", "needs[0].learner: is not among learners")]
    [InlineData("needs/0/largest", 20, "needs[0].largest: must be from 30 to 1440, not 20")]
    [InlineData("needs/0/minutes", 0, "needs[0].minutes: must be from 1 to 100000, not 0")]
    [InlineData("needs/1/line", "OT", "needs: names a window of a line twice")]
    [InlineData("needs/1/place", "school", "travel: has no way from home 1 to school")]
    [InlineData("providers/0/hours/0/end", "09:00", "providers[0].hours[0].end: must be after start")]
    [InlineData("providers/0/hours/0/start", "9", "providers[0].hours[0].start: must be a time such as 09:30")]
    [InlineData("learners/0/dailyLimit", "none", "learners[0].dailyLimit: must be a whole number")]
    [InlineData("busy/0/colour", "red", "busy[0].colour: is not known here")]
    [InlineData("travel/0/minutes", -1, "travel[0].minutes: must be from 0 to 1440, not -1")]
    [InlineData("seconds", 0, "seconds: must be from 1 to 600, not 0")]
    [InlineData("seconds", null, "seconds: is missing")]
    public void Wrong_field_is_named_with_what_is_wrong(string path, object? value, string message)
    {
        var file = JsonNode.Parse(Good)!;
        var steps = path.Split('/');
        var holder = steps[..^1].Aggregate(file, (node, step) => int.TryParse(step, out var i) ? node[i]! : node[step]!);
        if (holder is JsonArray list)
            list[int.Parse(steps[^1], System.Globalization.CultureInfo.InvariantCulture)] = JsonValue.Create(value);
        else if (value is null)
            holder.AsObject().Remove(steps[^1]);
        else
            holder[steps[^1]] = JsonValue.Create(value);

        Assert.Equal(message, Assert.Throws<CaseException>(() => CaseFile.WorkOut(file.ToJsonString())).Message);
    }
}
