using TeamCircle.Core.Learners;
using TeamCircle.Core.Progress;
using TeamCircle.Core.Time;
using TeamCircle.Data.Learners;
using TeamCircle.Data.Things;

namespace TeamCircle.Data.Progress;

/// <summary>One goal with all that was recorded about it, for its own page.</summary>
/// <param name="Changes">Of target, teaching, waits and prompts; oldest first.</param>
/// <param name="Probes">The latest first; also those that were corrected or taken back.</param>
/// <param name="Missing">Windows of the probe commitment that passed without a probe, oldest first.</param>
/// <param name="Breaks">Within the goal's dates, also those to come; oldest first.</param>
/// <param name="MayAdd">Whether the reader may add a probe of their own.</param>
public sealed record GoalCoursePage(
    int Id, int LearnerId, string Learner, string Area, string Statement, decimal? Target, LocalDate? TargetDay, GoalTerms Terms, LocalDate FromDay, LocalDate ToDay,
    IReadOnlyList<ProbesAsked> Asked, IReadOnlyList<GoalOwner> Owners, IReadOnlyList<Objective> Objectives, IReadOnlyList<GoalChange> Changes,
    IReadOnlyList<ProbeOnRecord> Probes, IReadOnlyList<MissingProbe> Missing, IReadOnlyList<SchoolBreak> Breaks, LocalDate AsOf, bool MayAdd, GoalRights Rights)
{
    /// <summary>When something that the goal needs was out of order, oldest first. It is no change of what is done, and no number is left out for it.</summary>
    public IReadOnlyList<GoalOutage> Outages { get; init; } = [];

    /// <summary>What stands.</summary>
    public IEnumerable<ProbeOnRecord> Live => Probes.Where(p => p.Live);

    /// <summary>What the goal aims at, as the rules take it.</summary>
    public GoalAims Aims => new(Terms.Better, Terms.Counts)
    {
        Target = Target,
        TargetDay = TargetDay,
        TeachingFrom = Terms.TeachingFrom,
        Stated = Terms.Baseline is { } level ? (level, Terms.PresentDay ?? FromDay) : null,
        Criterion = Terms.CriterionFor(Target),
        UpkeepWeeks = Terms.UpkeepWeeks,
        InARow = Terms.InARow,
        ComparableFrom = Terms.Measure == Measure.AveragePromptsNeeded ? Changes.LastOrDefault(c => c.IsOfPrompts)?.OnDay : null,
    };
}

/// <summary>A window that passed without a probe.</summary>
/// <param name="From">Its first school day.</param>
/// <param name="To">Its last school day.</param>
/// <param name="Of">Who was asked for it; null where any owner was.</param>
public sealed record MissingProbe(LocalDate From, LocalDate To, string? Of);

/// <summary>So many probes per window from a day on.</summary>
public sealed record ProbesAsked(LocalDate FromDay, int Probes, Every Every, bool ByEach);

public sealed record GoalOwner(int PersonId, string Name, LocalDate FromDay, LocalDate ToDay);

public sealed record Objective(string Statement, LocalDate? TargetDay);
