using System.Text.Json.Nodes;
using TeamCircle.Core.Cases;

namespace TeamCircle.Core.Tests.Commitments;

public sealed class CaseFileTests
{
    private static readonly string Good =
        File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "Cases", "03-missed-then-made-up-in-another-week.json"));

    [Fact]
    public void List_of_cases_gives_a_list_of_answers_in_the_same_order()
    {
        var other = JsonNode.Parse(Good)!;
        other["case"]!["asOf"] = "2026-09-01";

        var answers = JsonNode.Parse(CaseFile.WorkOut($"[{Good}, {other["case"]!.ToJsonString()}]"))!.AsArray();

        Assert.Equal(["met", "notPlanned"], answers.Select(a => (string?)a!["status"]));
    }

    [Theory]
    [InlineData("asOf", null, "case.asOf: is missing")]
    [InlineData("asOf", "20 October", "case.asOf: must be a date such as 2026-08-17")]
    [InlineData("asOf", "2026-02-30", "case.asOf: must be a date such as 2026-08-17")]
    [InlineData("dailyLimit", null, "case.dailyLimit: is missing")]
    [InlineData("dailyLimit", 30.5, "case.dailyLimit: must be a whole number")]
    [InlineData("dailyLimit", -1, "case.dailyLimit: must be from 0 to 100000, not -1")]
    [InlineData("colour", "red", "case.colour: is not known here")]
    [InlineData("kind", "mistake", "case.kind: is not a kind that can be worked out here; known kinds: commitment, forecast, series, trend, aimline, latency, "
        + "agreement, counts, proportion, recurrence, makeUp")]
    [InlineData("line/to", "2026-08-16", "case.line.to: must not be before from")]
    [InlineData("line/versions/0/quantity", "60", "case.line.versions[0].quantity: must be a whole number")]
    [InlineData("line/versions/0/from", "2026-08-18", "case.line.versions[0].from: must be the line's own from")]
    [InlineData("line/every/unit", "day", "case.line.every.unit: must be one of week, month, period, planYear")]
    [InlineData("periods/1/start", "2026-10-16", "case.periods[1]: overlaps another period")]
    [InlineData("given/17/pays", "2027-06-15", "case.given[17].pays: lies in no window of the line with a school day")]
    public void Wrong_field_is_named_with_what_is_wrong(string path, object? value, string message)
    {
        var file = JsonNode.Parse(Good)!;
        var steps = path.Split('/');
        var holder = steps[..^1].Aggregate(file["case"]!, (node, step) => int.TryParse(step, out var i) ? node[i]! : node[step]!);
        holder.AsObject().Remove(steps[^1]);
        if (value is not null)
            holder.AsObject().Add(steps[^1], JsonValue.Create(value));

        Assert.Equal(message, Assert.Throws<CaseException>(() => CaseFile.WorkOut(file.ToJsonString())).Message);
    }

    [Theory]
    [InlineData("")]
    [InlineData("{")]
    [InlineData("12")]
    [InlineData("""{"kind": "commitment", "kind": "commitment"}""")]
    [InlineData("""{"kind": "\ud800"}""")]
    [InlineData("""{"\ud800": 1}""")]
    [InlineData("""{"kind": "commitment", "a\nb": 1}""")]
    public void Broken_file_is_refused_in_one_line(string text)
    {
        var wrong = Assert.Throws<CaseException>(() => CaseFile.WorkOut(text));

        Assert.DoesNotContain(wrong.Message, char.IsControl);
    }
}
