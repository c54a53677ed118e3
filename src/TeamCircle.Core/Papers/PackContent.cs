using System.Text.Json;
using NodaTime;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Reports;

namespace TeamCircle.Core.Papers;

/// <summary>What a meeting's pack holds, as it was brought together: one value, kept as one document, so that what the family was given stays what it was.</summary>
/// <param name="AsOf">What was recorded up to this day is in it.</param>
/// <param name="YearFrom">The first day of the plan year that it is about; the plan's own.</param>
/// <param name="Goals">In the plan's order, with the level in the plan year and its conditions.</param>
/// <param name="Breaks">Stretches of five or more school days without teaching in the plan year, up to <paramref name="AsOf"/>.</param>
/// <param name="Works">What the team wrote down of how the learner is taught.</param>
/// <param name="Family">What the family said for the meeting, in its own words.</param>
/// <param name="Dates">Days that bind, as they stood.</param>
public sealed record PackContent(
    LocalDate AsOf, LocalDate YearFrom, LocalDate YearTo, IReadOnlyList<GoalFacts> Goals, IReadOnlyList<PackService> Services, IReadOnlyList<SchoolBreak> Breaks,
    IReadOnlyList<PackPart> Works, IReadOnlyList<PackWords> Family, IReadOnlyList<PackDate> Dates)
{
    public string Write() => JsonSerializer.Serialize(this, StrictJson.Options);

    /// <exception cref="JsonException">The text was not made by <see cref="Write"/>.</exception>
    public static PackContent Read(string json) => JsonSerializer.Deserialize<PackContent>(json, StrictJson.Options)!;
}

/// <summary>A service in the plan year: what was promised, given and not given, over the reporting periods that have begun.</summary>
/// <param name="Due">Minutes due in windows that are past, after what was decided not owed.</param>
/// <param name="Given">Of these given, made up among them.</param>
/// <param name="NotOwed">Minutes that people decided are not owed.</param>
/// <param name="IsJudged">False where the wording can't be judged: then it has no figures.</param>
/// <param name="SealedPeriods">Of how many periods the figures come from a closed count's statement.</param>
/// <param name="MadeUpSince">Minutes that make-ups paid after a closed count's period; in none of the figures before.</param>
/// <param name="OpenOwed">Minutes owed by a window that closes after the latest period, as a plan year does; 0 where there is none.</param>
/// <param name="OpenGiven">Minutes given in that window so far.</param>
/// <param name="Words">The plan's own words, where they were entered.</param>
public sealed record PackService(
    string Code, Discipline Discipline, int Due, int Given, int NotOwed, bool IsJudged, int SealedPeriods, int MadeUpSince, int OpenOwed, int OpenGiven, string? Words = null)
{
    /// <summary>Minutes that lack in windows that are past.</summary>
    [System.Text.Json.Serialization.JsonIgnore]
    public int Lack => Due - Given;
}

/// <summary>A part of how the learner is taught, in the team's words.</summary>
public sealed record PackPart(TeachPart Part, string Words, LocalDate WrittenOn);

/// <summary>What somebody of the family said.</summary>
public sealed record PackWords(string Words, string SaidBy, LocalDate SaidOn);

/// <summary>A day that binds.</summary>
public sealed record PackDate(BoundKind Kind, LocalDate Due, string? About = null);

/// <summary>What holds for a meeting's pack.</summary>
public static class Packs
{
    /// <summary>School days before the meeting on which the family has the pack at the latest: our number, until the agency gives another.</summary>
    public const int FamilyDays = 5;

    public const int LongestAbout = 200, LongestReason = 400;

    /// <summary>A meeting lies at most so many days ahead when its pack is made: our number; what was recorded would be out of date.</summary>
    public const int MostDaysAhead = 120;

    /// <summary>All problems of a meeting for which a pack is made.</summary>
    public static IEnumerable<Problem> Check(LocalDate? onDay, string? about, LocalDate? familyBy, LocalDate today)
    {
        if (onDay is not { } day || day < today || day > today.PlusDays(MostDaysAhead))
            yield return new("OnDay", $"Give the day of the meeting, from today on and at most {MostDaysAhead} days ahead.");
        if (string.IsNullOrWhiteSpace(about) || about.Trim().Length > LongestAbout)
            yield return new("About", $"Say in under {LongestAbout} letters what the meeting is about.");
        if (familyBy > onDay)
            yield return new("FamilyBy", "The family has the pack before the meeting.");
    }

    /// <summary>Adds the figures of one reporting period to a service's plan year.</summary>
    /// <param name="due">Due so far in the period, in minutes.</param>
    public static PackService With(this PackService service, int due, int lack, int notOwed, int madeUpSince, bool isSealed) => service with
    {
        Due = service.Due + due,
        Given = service.Given + due - lack,
        NotOwed = service.NotOwed + notOwed,
        MadeUpSince = service.MadeUpSince + madeUpSince,
        SealedPeriods = service.SealedPeriods + (isSealed ? 1 : 0),
    };
}
