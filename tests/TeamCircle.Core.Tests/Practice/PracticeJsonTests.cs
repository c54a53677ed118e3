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

    [Theory]
    [InlineData("null")]
    [InlineData("[]")]
    [InlineData("")]
    [InlineData("<html><body>Welcome to the network</body></html>")]
    public void What_is_no_practice_at_all_is_refused(string text) => Assert.Throws<JsonException>(() => PracticeJson.Read(text));
}
