using NodaTime;
using TeamCircle.Core.Learners;
using TeamCircle.Core.People;

namespace TeamCircle.Core.Routines;

/// <summary>What a hold lies on: a routine, one of its steps, a part of "How we teach", or a service.</summary>
/// <param name="Routine">Exactly one of this, <paramref name="Part"/> and <paramref name="Service"/> is set.</param>
/// <param name="Step">The key of one step; null: the whole routine.</param>
/// <param name="Service">Nothing is practised at its visits, whatever the routine.</param>
public sealed record HoldPlace(int? Routine, string? Step, TeachPart? Part, int? Service = null);

/// <summary>On whose word a hold is set.</summary>
public enum HoldWord
{
    /// <summary>Whoever sets it saw or decided it themselves.</summary>
    Own,
    Parent,
    Nurse,
    Physician,
}

/// <summary>What a hold does to a routine.</summary>
public enum HoldEffect
{
    Nothing,

    /// <summary>One step is left out; the others are practised.</summary>
    Step,

    /// <summary>The routine is not practised.</summary>
    Whole,
}

/// <summary>Whether somebody may end a hold.</summary>
public enum HoldEnding
{
    No,

    /// <summary>As the discipline that owns what it lies on.</summary>
    AsOwner,

    /// <summary>As the case manager, who names the licensed person who agreed.</summary>
    WithAgreement,
}

/// <summary>A hold as it is typed.</summary>
/// <param name="ToldBy">The name of whoever gave the word; needed unless it is one's own.</param>
/// <param name="ToldOn">The day on which they gave it; needed unless it is one's own.</param>
/// <param name="ToldTime">Null where only the day is known.</param>
public sealed record HoldEntry(HoldPlace Place, string? Reason, HoldWord? ToldAs, string? ToldBy, LocalDate? ToldOn, LocalTime? ToldTime);

/// <summary>Who may set and end a hold, what must be said, and what it stops. It stops practising only: plans and minutes go on.</summary>
public static class HoldRules
{
    public const int LongestReason = 400, LongestName = 100, UsualContactHours = 24, MostContactHours = 168;

    /// <summary>Everybody who works with the learner, substitutes and assistants among them: a hold must never wait for the right person.</summary>
    public static bool MaySet(Caller caller, int learner) => caller.IsStaff && caller.OnTeam(learner);

    /// <summary>Team members of the discipline that owns what the hold lies on; where nobody of it is at hand, the case manager with a licensed person's word.</summary>
    /// <param name="owner">That discipline; null where none owns it.</param>
    /// <param name="qualified">The disciplines of whoever asks.</param>
    public static HoldEnding MayEnd(Caller caller, int learner, Discipline? owner, IReadOnlySet<Discipline> qualified)
    {
        var manages = caller.Manages(learner);
        if (!caller.IsStaff || !(manages || caller.Stands(learner, Relation.Team)))
            return HoldEnding.No;
        return owner is { } discipline && qualified.Contains(discipline) ? HoldEnding.AsOwner
            : manages ? HoldEnding.WithAgreement : HoldEnding.No;
    }

    /// <summary>All problems at once; none where the hold can be set.</summary>
    /// <param name="now">The agency's date and time.</param>
    public static IEnumerable<Problem> Check(HoldEntry entry, LocalDateTime now)
    {
        if (!IsOne(entry.Place))
            yield return new("On", "Choose what the hold lies on.");
        if (Lacks(entry.Reason, LongestReason))
            yield return new("Reason", $"Say in under {LongestReason} letters why, so that everybody knows what to look for.");
        if (entry.ToldAs is null)
            yield return new("ToldAs", "Say on whose word.");
        if (entry.ToldAs is null or HoldWord.Own)
            yield break;
        if (Lacks(entry.ToldBy, LongestName))
            yield return new("ToldBy", "Give the name of the person who said so.");
        if (entry.ToldOn is not { } day)
            yield return new("ToldOn", "Give the day on which they said so.");
        else if (day > now.Date || (day == now.Date && entry.ToldTime > now.TimeOfDay))
            yield return new("ToldOn", "That is still to come.");
    }

    /// <summary>All problems at once of the words with which a hold ends.</summary>
    /// <param name="agreedBy">The licensed person who agreed, by name and profession; needed <see cref="HoldEnding.WithAgreement"/>.</param>
    public static IEnumerable<Problem> CheckEnd(HoldEnding ending, string? word, string? agreedBy)
    {
        if (Lacks(word, LongestReason))
            yield return new("Word", $"Say in under {LongestReason} letters what has changed, and what holds from now on.");
        if (agreedBy?.Trim().Length > LongestName || (ending == HoldEnding.WithAgreement && string.IsNullOrWhiteSpace(agreedBy)))
            yield return new("AgreedBy", "Name the licensed person who agreed, and their profession.");
    }

    /// <summary>What a hold does to a routine wherever it is practised; one on a service does nothing to it elsewhere than at that service's visits. In doubt it stops it: a part of "How we teach" that every routine rests on stops all.</summary>
    /// <param name="card">The routine's card; null where nobody has written it yet.</param>
    public static HoldEffect Effect(HoldPlace place, int routine, RoutineContent? card) => place switch
    {
        { Routine: { } on } => on != routine ? HoldEffect.Nothing : place.Step is null ? HoldEffect.Whole : HoldEffect.Step,
        { Part: { } part } => card is null || Uses(card, part) ? HoldEffect.Whole : HoldEffect.Nothing,
        _ => HoldEffect.Nothing,
    };

    /// <summary>Whether no routine does without a part (how things are shown, what the signals mean, cautions): then a hold on it stops all, also one that is written later.</summary>
    public static bool StopsAll(TeachPart part) => part is not (TeachPart.Position or TeachPart.Hands or TeachPart.Switch);

    /// <summary>Whether a hold on a service stops practising at the visits of another: at its own, and of one that continues it after an amendment.</summary>
    /// <param name="service">Of the visit; null for a visit of another kind.</param>
    /// <param name="continues">What a service continues; null where it began anew.</param>
    public static bool StopsService(int held, int? service, Func<int, int?> continues)
    {
        for (var at = service; at is { } id; at = continues(id))
        {
            if (id == held)
                return true;
        }
        return false;
    }

    private static bool IsOne(HoldPlace place) =>
        (place.Routine is null ? 0 : 1) + (place.Part is null ? 0 : 1) + (place.Service is null ? 0 : 1) == 1 && (place.Step is null || place.Routine is not null);

    private static bool Uses(RoutineContent card, TeachPart part) => part switch
    {
        TeachPart.Position => card.Position is not null || card.Support is not null || card.Cautions.Any(c => c.Kind == CautionKind.Positioning),
        TeachPart.Hands => card.Support is not null || card.Prompts.Any(p => p.Physical is not null) || card.Cautions.Any(c => c.Kind == CautionKind.PhysicalAssistance),
        TeachPart.Switch => card.Device is not null || card.Appliance is not null,
        _ => true,
    };

    private static bool Lacks(string? text, int longest) => string.IsNullOrWhiteSpace(text) || text.Trim().Length > longest;
}
