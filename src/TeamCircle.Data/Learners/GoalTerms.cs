using TeamCircle.Core.Learners;
using TeamCircle.Core.Progress;

namespace TeamCircle.Data.Learners;

/// <summary>What the owners of a goal write of it: the measure, which data count, where it begins, the criterion, the stages. Kept and typed alike.</summary>
public class GoalTerms
{
    public Measure Measure { get; set; }
    public Better Better { get; set; }

    /// <summary>Which data count towards the criterion.</summary>
    public ProbeKind Counts { get; set; }

    /// <summary>The conditions agreed for a probe.</summary>
    public string? Conditions { get; set; }

    /// <summary>The present level as the plan states it; null where the baseline is taken from probes before teaching.</summary>
    public decimal? Baseline { get; set; }

    /// <summary>When that level was seen, under which conditions, and where it is written.</summary>
    public LocalDate? PresentDay { get; set; }
    public string? PresentConditions { get; set; }
    public string? PresentSource { get; set; }

    /// <summary>What pure chance would give in a choice of two, in the unit of the measure.</summary>
    public decimal? Chance { get; set; }

    /// <summary>When teaching began; null: not yet, or not said.</summary>
    public LocalDate? TeachingFrom { get; set; }

    /// <summary>Criterion "k of n": on <see cref="CriterionDays"/> of the last <see cref="CriterionOf"/> days with data; the same number twice: in a row.</summary>
    public int? CriterionDays { get; set; }
    public int? CriterionOf { get; set; }

    /// <summary>The opportunities that a point needs, the people and the places that the days must include; null for no such demand.</summary>
    public int? CriterionFewest { get; set; }
    public int? CriterionPeople { get; set; }
    public int? CriterionPlaces { get; set; }

    /// <summary>Weeks after mastery at which upkeep is looked at; null: not.</summary>
    public int? FirstUpkeep { get; set; } = GoalMeasure.UsualUpkeep[0];
    public int? SecondUpkeep { get; set; } = GoalMeasure.UsualUpkeep[1];
    public int? ThirdUpkeep { get; set; } = GoalMeasure.UsualUpkeep[2];

    /// <summary>How many points in a row raise a question to the team: three or four.</summary>
    public int InARow { get; set; } = GoalMeasure.UsualInARow;

    public IReadOnlyList<int> UpkeepWeeks => [.. new[] { FirstUpkeep, SecondUpkeep, ThirdUpkeep }.OfType<int>()];

    /// <summary>Null where the goal has no target or no days for one yet.</summary>
    public Criterion? CriterionFor(decimal? target) => target is { } level && CriterionDays is { } days && CriterionOf is { } of
        ? new(level, Better, days, of) { Counts = Counts, FewestOpportunities = CriterionFewest, People = CriterionPeople ?? 1, Places = CriterionPlaces ?? 0 }
        : null;

    internal GoalMeasure MeasureEntry => new(Measure, Better, Baseline, CriterionDays, CriterionOf)
    {
        PresentDay = PresentDay,
        PresentConditions = PresentConditions,
        PresentSource = PresentSource,
        CriterionFewest = CriterionFewest,
        CriterionPeople = CriterionPeople,
        CriterionPlaces = CriterionPlaces,
        Chance = Chance,
        UpkeepWeeks = UpkeepWeeks,
        InARow = InARow,
    };

    /// <summary>Takes all terms over from another; texts without spaces around them.</summary>
    /// <returns>Itself.</returns>
    public GoalTerms Take(GoalTerms other)
    {
        (Measure, Better, Counts, Conditions) = (other.Measure, other.Better, other.Counts, Said(other.Conditions));
        (Baseline, PresentDay, PresentConditions, PresentSource) = (other.Baseline, other.PresentDay, Said(other.PresentConditions), Said(other.PresentSource));
        (Chance, TeachingFrom, InARow) = (other.Chance, other.TeachingFrom, other.InARow);
        (CriterionDays, CriterionOf) = (other.CriterionDays, other.CriterionOf);
        (CriterionFewest, CriterionPeople, CriterionPlaces) = (other.CriterionFewest, other.CriterionPeople, other.CriterionPlaces);
        (FirstUpkeep, SecondUpkeep, ThirdUpkeep) = (other.FirstUpkeep, other.SecondUpkeep, other.ThirdUpkeep);
        return this;
    }

    private static string? Said(string? text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim();
}
