using NodaTime;
using TeamCircle.Core.Learners;

namespace TeamCircle.Core.Routines;

/// <summary>Where the review of a card by a licensed member of the team stands.</summary>
public enum ReviewState
{
    /// <summary>There is neither positioning nor physical assistance in it.</summary>
    NotNeeded,
    Reviewed,

    /// <summary>It still holds, and its last day is at most <see cref="ReviewRules.WarningDays"/> days away.</summary>
    Due,

    /// <summary>Nobody has reviewed these parts, or too long ago: not to be practised.</summary>
    Missing,
}

/// <summary>A review as it was given.</summary>
/// <param name="Number">The number of the version that was reviewed.</param>
/// <param name="Content">That version's content.</param>
public sealed record GivenReview(int Id, int Number, LocalDate On, RoutineContent Content);

/// <summary>Where the review stands on a day.</summary>
/// <param name="Review">The newest review that speaks about these parts, also one that has run out; null where there is none.</param>
/// <param name="Until">The last day on which it holds; null without a review.</param>
/// <param name="IsOutdated">Whether there was a review of other content: the parts have changed since.</param>
public sealed record ReviewStanding(ReviewState State, GivenReview? Review, LocalDate? Until, bool IsOutdated);

/// <summary>When a card has to be reviewed, by whom, and how long a review holds.</summary>
public static class ReviewRules
{
    public const int WarningDays = 30, UsualMonths = 12;

    /// <summary>Disciplines that need a licence for the body and for eating: what they say about positioning and assistance counts as a review.</summary>
    public static bool IsLicensed(Discipline discipline) =>
        discipline is Discipline.OccupationalTherapy or Discipline.PhysicalTherapy or Discipline.SpeechLanguage;

    /// <summary>Whether there is positioning or physical assistance in it.</summary>
    public static bool IsNeeded(RoutineContent card) =>
        card.Position is not null || card.Support is not null || card.Prompts.Any(p => p.Physical is not null)
        || card.Cautions.Any(c => c.Kind is CautionKind.Positioning or CautionKind.PhysicalAssistance);

    /// <summary>The parts that a review is about, as one text: two cards need no new review between them where it is the same.</summary>
    public static string PartsOf(RoutineContent card) => new RoutineContent
    {
        Position = card.Position,
        Support = card.Support,
        Device = card.Device,
        Cautions = card.Cautions,
        Appliance = card.Appliance,
        Texture = card.Texture,
        Allergies = card.Allergies,
        WhoFeeds = card.WhoFeeds,
        FoodOrPowerNear = card.FoodOrPowerNear,
        Flashing = card.Flashing,
        SeizuresAsked = card.SeizuresAsked,
        Prompts = [.. card.Prompts.Where(p => p.Physical is not null).Select(p => p with { WaitSeconds = null })],
    }.Write();

    /// <summary>A review holds for its own version and for each later one whose reviewed parts are the same, on its day and for the months after it.</summary>
    /// <param name="number">The number of <paramref name="card"/>'s version; reviews of later versions do not speak about it.</param>
    /// <param name="months">How long a review holds; its last day is the one before the same day of that month.</param>
    public static ReviewStanding Standing(RoutineContent card, int number, IEnumerable<GivenReview> reviews, int months, LocalDate today)
    {
        var parts = PartsOf(card);
        var earlier = reviews.Where(r => r.Number <= number).OrderBy(r => r.On).ThenBy(r => r.Id).ToList();
        var review = earlier.LastOrDefault(r => PartsOf(r.Content) == parts);
        var until = review?.On.PlusMonths(months).PlusDays(-1);
        var state = !IsNeeded(card) ? ReviewState.NotNeeded
            : until is null || until < today ? ReviewState.Missing
            : Period.DaysBetween(today, until.Value) <= WarningDays ? ReviewState.Due : ReviewState.Reviewed;
        return new(state, review, until, review is null && earlier.Count > 0);
    }
}
