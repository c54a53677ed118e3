using System.ComponentModel.DataAnnotations;
using TeamCircle.Core;
using TeamCircle.Core.Practice;
using TeamCircle.Core.Progress;

namespace TeamCircle.Data.Progress;

/// <summary>What a person may type about one probe.</summary>
public abstract record TypedProbe
{
    public LocalDate? OnDay { get; init; }
    public decimal? Value { get; init; }
    public int? Opportunities { get; init; }

    [EnumDataType(typeof(ProbeKind))]
    public ProbeKind Kind { get; init; }

    [EnumDataType(typeof(Stage))]
    public Stage? Stage { get; init; }
    public LocalDate? PaysOn { get; init; }

    [StringLength(1000)]
    public string? Conditions { get; init; }

    [EnumDataType(typeof(StateOfLearner))]
    public StateOfLearner? State { get; init; }

    [StringLength(100)]
    public string? Position { get; init; }

    /// <summary>On which side things were presented.</summary>
    [StringLength(100)]
    public string? Side { get; init; }

    /// <summary>Where it was.</summary>
    [StringLength(100)]
    public string? Place { get; init; }

    /// <summary>Who took it; null: the caller, or who did before. Only a case manager may name somebody else.</summary>
    public int? ProviderId { get; init; }

    /// <summary>The verdict of the rules, or all problems, also about what was left empty.</summary>
    internal Outcome<ProbeVerdict> Check(ProbeFacts facts, int provider, Guid? replaced)
    {
        if (Value is not { } value || OnDay is not { } day)
            return Outcome<ProbeVerdict>.Refused([.. Missing()]);
        var entry = new ProbeEntry(day, value, Opportunities, Kind, Stage, PaysOn);
        return ProbeRules.Check(entry, facts.Situation(provider, entry, replaced));
    }

    internal ProbeRow Row(ProbeFacts facts, int provider) => new()
    {
        AgencyId = facts.Goal.AgencyId,
        Id = Guid.CreateVersion7(),
        LearnerId = facts.Goal.LearnerId,
        GoalId = facts.Goal.Id,
        ProviderId = provider,
        OnDay = OnDay!.Value,
        PaysOn = PaysOn,
        Value = Value!.Value,
        Opportunities = Opportunities,
        Kind = Kind,
        Stage = Stage,
        Conditions = Said(Conditions),
        State = State,
        Position = Said(Position),
        Side = Said(Side),
        Place = Said(Place),
    };

    private static string? Said(string? text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim();

    private IEnumerable<Problem> Missing()
    {
        if (Value is null)
            yield return new(nameof(Value), "Type the value as a number.");
        if (OnDay is null)
            yield return new(nameof(OnDay), "Say on which day it was.");
    }
}

/// <summary>What was saved about a probe.</summary>
public sealed record SavedProbe(Guid Probe, int Goal, IReadOnlyList<string> Notices);
