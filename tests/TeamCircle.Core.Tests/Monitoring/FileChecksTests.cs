using NodaTime;
using TeamCircle.Core.Monitoring;

namespace TeamCircle.Core.Tests.Monitoring;

public sealed class FileChecksTests
{
    [Fact]
    public void Facts_answer_each_question_where_they_can()
    {
        var checks = FileChecks.Of(new(
            DaysWithoutPlan: 3,
            [new("TF07-OT", false, "to make up", 60, 0), new("TF07-V", false, "met", 0, 5), new("TF07-G1", true, "met", 0, 0)],
            [new(IsNotOwed: true, HasReason: true, HasPeople: true, FamilyTold: false), new(IsNotOwed: false, HasReason: false, HasPeople: true, FamilyTold: false)],
            Signatures: 0,
            [Duration.FromHours(1), Duration.FromHours(48), Duration.FromHours(49)]));

        Assert.Equal(Enum.GetValues<FileQuestion>(), checks.Select(c => c.Question));
        Assert.Equal(
            [
                "3 days without one", "TF07-V: nobody on 5 days", "TF07-OT: to make up, 60 lacking so far; TF07-V: met", "TF07-G1: met",
                "1 of 2 decisions", "0 of 1 decision", "0 signatures", "1 of 3 first entries came later",
            ],
            checks.Select(c => c.Found));
        Assert.Equal(
            [FileAnswer.No, FileAnswer.No, FileAnswer.No, FileAnswer.Yes, FileAnswer.No, FileAnswer.No, FileAnswer.No, FileAnswer.No], checks.Select(c => c.Proposed));
    }

    [Fact]
    public void What_a_file_does_not_have_is_not_applicable_rather_than_good()
    {
        var checks = FileChecks.Of(new(0, [], [], null, []));

        Assert.Equal(FileAnswer.Yes, checks[0].Proposed);
        Assert.All(checks.Skip(1), c => Assert.Equal(FileAnswer.NotApplicable, c.Proposed));
    }
}
