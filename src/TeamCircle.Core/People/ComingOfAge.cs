using NodaTime;

namespace TeamCircle.Core.People;

/// <summary>On what a family keeps reading a record after the learner has come of age.</summary>
public enum AdultBasis
{
    /// <summary>A court named them guardian, or they represent the learner by state law (34 CFR 300.520(b)).</summary>
    Guardianship,

    /// <summary>The adult learner agrees (34 CFR 99.30).</summary>
    Consent,

    /// <summary>It is the learner's own record, and their own seat.</summary>
    OwnRecord,
}

/// <summary>What an agency has said about coming of age.</summary>
/// <param name="Years">Years of life after which rights are the learner's own.</param>
/// <param name="Pauses">Whether the family's seats pause on that day until somebody has decided about each.</param>
public sealed record MajorityPolicy(int Years, bool Pauses);

/// <summary>When rights over a record pass from the parents to the learner (34 CFR 300.520, 300.625, 99.5).</summary>
/// <remarks>States differ in the age and in what a guardian keeps; local rules come first, and the pages say so. Nothing is deleted: a seat pauses.</remarks>
public static class ComingOfAge
{
    /// <summary>99.3 and most states: eighteen.</summary>
    public const int UsualYears = 18;

    public const int FewestYears = 18, MostYears = 21;

    /// <summary>Calendar days before the day on which the case manager is asked to tell the learner and the parents: our number. The plan itself says it a year before
    /// (300.320(c)).</summary>
    public const int NoticeDays = 90;

    public const int LongestPaper = 300;

    /// <summary>The day on which so many years are complete. Who was born on 29 February completes them, in a year without one, on 1 March: our choice, for by then
    /// nobody can say that it was too early.</summary>
    public static LocalDate Day(LocalDate born, int years)
    {
        var day = born.PlusYears(years); // 29 February becomes 28
        return born is { Month: 2, Day: 29 } && day.Day == 28 ? day.PlusDays(1) : day;
    }

    /// <summary>Whether a family's seat is paused: the day has come, the agency pauses, and nobody has decided that it stays.</summary>
    /// <param name="born">Null where nobody has entered the day of birth: then nothing pauses.</param>
    public static bool IsPaused(LocalDate? born, MajorityPolicy policy, AdultBasis? decided, LocalDate today) =>
        policy.Pauses && decided is null && born is { } day && Day(day, policy.Years) <= today;

    /// <summary>Whether the case manager is asked to tell the learner and the parents.</summary>
    public static bool IsNoticeDue(LocalDate born, int years, LocalDate? toldOn, LocalDate today) =>
        toldOn is null && Day(born, years).PlusDays(-NoticeDays) <= today;

    /// <summary>All problems of what is entered about the day.</summary>
    public static IEnumerable<Problem> Check(LocalDate? born, LocalDate? toldOn, string? toldWords, LocalDate today)
    {
        if (born is not { } day || day > today || day < today.PlusYears(-30))
            yield return new("BornOn", "Give the day of birth: past, and not more than 30 years ago.");
        if (toldOn > today || toldOn < born)
            yield return new("ToldOn", "Give the day on which they were told; it cannot be later than today.");
        if ((toldOn is null) != string.IsNullOrWhiteSpace(toldWords))
            yield return new("ToldWords", "The day and who told whom belong together: give both, or neither yet.");
        if (toldWords?.Trim().Length > LongestPaper)
            yield return new("ToldWords", $"Keep it under {LongestPaper} letters.");
    }
}
