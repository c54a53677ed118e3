using NodaTime;
using TeamCircle.Core.Progress;

namespace TeamCircle.Core.Tests.Progress;

public sealed class ProbeRulesTests
{
    private static readonly ProbeEntry Probe = new(new(2026, 9, 15), 25, 8, ProbeKind.Probe, Stage.DuringTeaching, null);

    private static ProbeSituation At(Measure measure = Measure.PercentIndependent) =>
        new(new(2026, 9, 16), measure, SchoolYear.Line, SchoolYear.Weeks, IsOwner: true, ProbedThatDay: false);

    [Theory]
    [InlineData(Measure.PercentIndependent, 100, 8, true)]
    [InlineData(Measure.PercentIndependent, 100.5, 8, false)]
    [InlineData(Measure.PercentIndependent, -1, 8, false)]
    [InlineData(Measure.ResponsesOf, 8, 8, true)]
    [InlineData(Measure.ResponsesOf, 9, 8, false)]
    [InlineData(Measure.ResponsesOf, 2.5, 8, false)]
    [InlineData(Measure.Count, 2.5, null, false)]
    [InlineData(Measure.AveragePromptsNeeded, 2.5, null, true)]
    [InlineData(Measure.TimeToRespond, -0.1, null, false)]
    [InlineData(Measure.OwnScale, -2, null, true)]
    public void Value_lies_in_the_range_of_its_measure(Measure measure, double value, int? opportunities, bool stands)
    {
        var problems = ProbeRules.Check(Probe with { Value = (decimal)value, Opportunities = opportunities }, At(measure)).Problems;

        Assert.Equal(stands ? [] : ["Value"], problems.Select(p => p.Field));
    }

    [Fact]
    public void Responses_of_so_many_need_to_say_how_many()
    {
        Assert.Equal("Opportunities", Assert.Single(ProbeRules.Check(Probe with { Value = 2, Opportunities = null }, At(Measure.ResponsesOf)).Problems).Field);
        Assert.Equal("Opportunities", Assert.Single(ProbeRules.Check(Probe with { Value = 0, Opportunities = 0 }, At()).Problems).Field);
    }

    [Fact]
    public void Probe_of_tomorrow_is_refused() =>
        Assert.Equal("OnDay", Assert.Single(ProbeRules.Check(Probe with { OnDay = new(2026, 9, 17) }, At()).Problems).Field);

    [Fact]
    public void Make_up_names_a_window_in_which_a_probe_was_due()
    {
        Assert.NotNull(ProbeRules.Check(Probe with { PaysOn = new(2026, 9, 8) }, At()).Value);
        Assert.Equal("PaysOn", Assert.Single(ProbeRules.Check(Probe with { PaysOn = new(2026, 11, 25) }, At()).Problems).Field);
        Assert.Equal("PaysOn", Assert.Single(ProbeRules.Check(Probe with { PaysOn = new(2026, 9, 8) }, At() with { Windows = null }).Problems).Field);
    }

    [Fact]
    public void What_will_not_count_as_due_is_stored_and_said()
    {
        static string Notice(ProbeEntry entry, ProbeSituation at) => Assert.Single(ProbeRules.Check(entry, at).Value!.Notices);

        Assert.Contains("Outside the dates", Notice(Probe with { OnDay = new(2026, 8, 3) }, At()), StringComparison.Ordinal);
        Assert.Contains("Teaching data", Notice(Probe with { Kind = ProbeKind.Teaching }, At()), StringComparison.Ordinal);
        Assert.Contains("does not own", Notice(Probe, At() with { IsOwner = false }), StringComparison.Ordinal);
        Assert.Contains("already a probe", Notice(Probe, At() with { ProbedThatDay = true }), StringComparison.Ordinal);
    }
}
