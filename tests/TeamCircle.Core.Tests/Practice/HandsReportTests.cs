using TeamCircle.Core.Practice;
using TeamCircle.Core.Progress;
using static TeamCircle.Core.Tests.Practice.Practised;

namespace TeamCircle.Core.Tests.Practice;

public sealed class HandsReportTests
{
    [Fact]
    public void Each_person_has_a_row_with_what_they_recorded()
    {
        var (odalys, again, bram) = (Once(1), Once(1, steps: new(1, 2)), Once(2));
        PractisedTrial[] trials = [Answered(odalys, 3), Helped(odalys, 12), Helped(again, 5, waitKept: false), Answered(bram, 6), Answered(bram, 7) with { Counts = false }];

        var rows = HandsReport.Of([bram, odalys, again], trials);

        Assert.Equal([(1, 2), (2, 1)], rows.Select(r => (r.Person, r.Practices)));
        Assert.Equal([new(1, 3), new(1, 1)], rows.Select(r => r.WithoutHelp));
        Assert.Equal([new(3, 4), new(2, 2)], rows.Select(r => r.Steps));
        Assert.Equal([new(2, 3), new(2, 2)], rows.Select(r => r.Waits));
        Assert.Equal([3, 1], rows.Select(r => r.Curve.Trials));
    }

    [Fact]
    public void Difference_is_to_everybody_else_together()
    {
        var (one, two, three) = (Once(1), Once(2), Once(3));
        PractisedTrial[] trials = [Answered(one, 3), Helped(one, 12), Answered(two, 3), Helped(two, 3), Helped(three, 5), Helped(three, 5)];

        var rows = HandsReport.Of([one, two, three], trials);

        Assert.Equal(Proportion.Of(1, 2).Less(Proportion.Of(1, 4)), rows[0].Difference);
        Assert.Equal(-0.5, rows[2].Difference!.Value.Value);
    }

    [Fact]
    public void Person_without_trials_has_a_row_and_nothing_to_compare()
    {
        var rows = HandsReport.Of([Once(1)], []);

        Assert.Equal(("no trials", null), (rows[0].Share.Value.Why, rows[0].Difference));
        Assert.Equal(0, rows[0].Curve.Trials);
    }
}
