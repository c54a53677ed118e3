using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Papers;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Tests.Papers;

/// <summary>A meeting's pack as a document, decisions on an extended school year, and what its services owe.</summary>
public sealed class PacksTests
{
    private static readonly LocalDate Today = new(2026, 10, 20);

    [Fact]
    public void Pack_is_kept_word_for_word()
    {
        var pack = new PackContent(
            Today, new(2026, 8, 17), new(2027, 5, 6), [new(3, "Looking", "Finds the cup.", Measure.PercentIndependent, Better.Up, 9, 7)],
            [new("S1", Discipline.Vision, 540, 45, 15, true, 1, 30, 0, 0, "60 minutes a week"), new("S2", Discipline.SpeechLanguage, 0, 0, 0, false, 0, 0, 0, 0)], [new(new(2026, 11, 23), new(2026, 11, 27), 5)],
            [new(TeachPart.SignalMore, "She looks at the window.", new(2026, 9, 1))], [new("She sleeps badly.", "her mother", Today)], [new(BoundKind.Reevaluation, new(2027, 2, 28), "the last one"), new(BoundKind.AnnualReview, new(2027, 5, 6))]);

        var read = PackContent.Read(pack.Write());

        Assert.Equal(pack.Write(), read.Write());
        Assert.Equal((495, 30), (read.Services[0].Lack, read.Services[0].MadeUpSince));
        Assert.Equal(BoundKind.Reevaluation, read.Dates[0].Kind);
    }

    // By hand: the first period, closed, was due 300 of which 40 lack; the second owes 120 so far of which 30 lack, 15 more were decided not owed.
    [Fact]
    public void Plan_year_is_the_sum_of_its_periods()
    {
        var sum = new PackService("S1", Discipline.Vision, 0, 0, 0, true, 0, 0, 0, 0)
            .With(due: 300, lack: 40, notOwed: 0, madeUpSince: 20, isSealed: true).With(due: 120, lack: 30, notOwed: 15, madeUpSince: 0, isSealed: false);

        Assert.Equal((420, 350, 70, 15, 20, 1), (sum.Due, sum.Given, sum.Lack, sum.NotOwed, sum.MadeUpSince, sum.SealedPeriods));
    }

    [Fact]
    public void Meeting_lies_ahead_and_the_family_has_its_pack_before()
    {
        Assert.Empty(Packs.Check(Today.PlusDays(15), "Annual review", null, Today));
        Assert.Equal(["OnDay", "About"], Packs.Check(Today.PlusDays(-1), " ", null, Today).Select(p => p.Field));
        Assert.Equal(["FamilyBy"], Packs.Check(Today.PlusDays(15), "Annual review", Today.PlusDays(16), Today).Select(p => p.Field));
    }

    [Fact]
    public void Decision_on_an_extended_year_says_what_was_weighed_and_who_took_part()
    {
        Assert.Empty(ExtendedYears.CheckDecision(ExtendedYearAnswer.NotNeeded, Today, "She regained all within two weeks.", "Odalys Ferreira, her mother", null, Today));
        Assert.Equal(["Answer", "DecidedOn", "Reason", "TookPart"], ExtendedYears.CheckDecision(null, Today.PlusDays(1), "", null, null, Today).Select(p => p.Field));
        Assert.Equal(["FamilyToldOn"], ExtendedYears.CheckDecision(ExtendedYearAnswer.Needed, Today, "Because.", "All", Today.PlusDays(-1), Today).Select(p => p.Field));
        Assert.NotEmpty(ExtendedYears.CheckAsk(Today.PlusYears(1).PlusDays(1), Today));
    }

    // A school year to 28 May and four summer weeks from 21 June to 16 July 2027, 60 minutes a week over the plan year: 4 × 60 in extended terms,
    // and in regular ones 40 weeks from 24 August 2026 (the plan's first week) to 28 May.
    [Theory]
    [InlineData(LineTerms.Extended, 240)]
    [InlineData(LineTerms.Regular, 2400)]
    [InlineData(LineTerms.Both, 2640)]
    public void Service_of_an_extended_term_owes_only_there(LineTerms terms, int owed)
    {
        var calendar = new SchoolCalendar(
            [IsoDayOfWeek.Monday, IsoDayOfWeek.Tuesday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Thursday, IsoDayOfWeek.Friday], IsoDayOfWeek.Monday,
            [new Term(new(2026, 8, 24), new(2027, 5, 28), TermKind.Regular), new Term(new(2027, 6, 21), new(2027, 7, 16), TermKind.Extended)], []);
        var year = DateRange.Of(new(2026, 8, 24), new(2027, 8, 20));
        var promise = new Promise(new(EveryUnit.Week, 1), year, new PromiseVersion(year.First, 60)) { Terms = terms };
        var line = new LineFacts { Promise = promise, Windows = new WindowCatalog(calendar, [year]).Of(promise, year) };

        var balance = Ledger.Judge(line, new Judging(year, year.Last, new Policies(Policy.Default)), new LedgerDesk());

        Assert.Equal(owed, balance.Minutes.Owed);
    }
}
