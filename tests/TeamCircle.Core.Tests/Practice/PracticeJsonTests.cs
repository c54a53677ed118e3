using System.Text.Json;
using TeamCircle.Core.Practice;

namespace TeamCircle.Core.Tests.Practice;

public sealed class PracticeJsonTests
{
    private static string Sample => File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "Practice", "practice.json"));

    [Fact]
    public void Sample_of_the_format_is_read_in_full()
    {
        var record = PracticeJson.Read(Sample);

        Assert.Equal((3, 12, PracticeEntry.Live), (record.Routine, record.Version, record.Entry));
        Assert.Equal([TrialEventKind.CueEnded, TrialEventKind.Begun, TrialEventKind.Response, TrialEventKind.End], record.Trials[0].Events.Select(e => e.Kind));
        Assert.Equal((ResponseKind.HopedFor, TappedBy.LearnerSwitch), (record.Trials[0].Events[2].Response, record.Trials[0].Events[2].By));
        Assert.Equal(new StatesOfLearner(StateOfLearner.QuietAlert, null, StateOfLearner.Drowsy), record.Conditions.State);
        Assert.Equal((FilledKind.WarmUp, 6), (record.Filled[0].Kind, record.Filled[0].Minutes));
        Assert.Equal("pulled away", record.Steps[1].Why);
        Assert.Equal(41_200, Assert.Single(record.Stops).At);
        Assert.Null(record.Visit);
        Assert.Equal(10_000, TrialTimeline.Of(record.Trials[0], ATrial.Order).TimeToRespond);
    }

    [Theory]
    [InlineData("\"routine\": 3", "\"routine\": 3, \"learner\": 4")] // a name that is unknown
    [InlineData("\"routine\": 3", "\"routine\": 3, \"routine\": 4")] // twice
    [InlineData("\"routine\": 3,", "")] // lacking
    [InlineData("\"routine\": 3", "\"routine\": null")]
    [InlineData("\"live\"", "\"dead\"")]
    [InlineData("\"live\"", "0")]
    [InlineData("\"at\": 0", "\"at\": 0.5")]
    [InlineData("\"2026-09-14T14:03:07.25Z\"", "\"2026-09-14T14:03:07+02:00\"")]
    [InlineData("\"trials\": [", "\"trials\": [null,")]
    public void What_is_not_of_the_format_is_refused(string from, string to)
    {
        Assert.Contains(from, Sample, StringComparison.Ordinal);

        var wrong = Sample.Replace(from, to, StringComparison.Ordinal);

        Assert.Throws<JsonException>(() => PracticeJson.Read(wrong));
    }

    [Fact]
    public void No_response_that_was_remembered_is_written_and_read_again()
    {
        var record = PracticeText.Record with { Trials = [ATrial.With() with { Remembered = new(null) }, ATrial.With() with { Remembered = new(0, 4) }] };

        Assert.Equal(record.Trials.Select(t => t.Remembered), PracticeJson.Read(PracticeJson.Write(record)).Trials.Select(t => t.Remembered));
    }

    [Fact]
    public void What_a_second_observer_scored_is_written_and_read_again()
    {
        var scored = PracticeText.Record with { Observes = Guid.Parse("0199a1b2-0000-7000-8000-000000000002"), From = new("Ines Belmares", new(2026, 9, 14)) };
        var coded = PracticeText.Record with { ObservesCode = "2PF2DB" };

        Assert.Contains("\"from\":{\"consentBy\":\"Ines Belmares\",\"consentOn\":\"2026-09-14\"}", PracticeJson.Write(scored), StringComparison.Ordinal);
        Assert.Equal(scored.From, PracticeJson.Read(PracticeJson.Write(scored)).From);
        Assert.Equal("2PF2DB", PracticeJson.Read(PracticeJson.Write(coded)).ObservesCode);
        Assert.Equal([true, true, false], new[] { scored, coded, PracticeText.Record }.Select(r => r.IsSecond));
    }

    [Theory]
    [InlineData("null")]
    [InlineData("[]")]
    [InlineData("")]
    [InlineData("<html><body>Welcome to the network</body></html>")]
    public void What_is_no_practice_at_all_is_refused(string text) => Assert.Throws<JsonException>(() => PracticeJson.Read(text));
}
