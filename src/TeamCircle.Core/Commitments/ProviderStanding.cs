namespace TeamCircle.Core.Commitments;

/// <summary>Where one provider stands over the lines and probe commitments for which they were the named person
/// (docs/rules.md, part 8), each judged over the windows that closed while they were named.</summary>
/// <remarks>The duty is the agency's: this is for staff and never shown to families. Start from the default value.</remarks>
public readonly record struct ProviderStanding
{
    private bool AnyServiceNotMet { get; init; }

    private bool AnyProbesNotMet { get; init; }

    /// <summary>The worst status of the services, in minutes and sessions; null where there is none that can be judged.</summary>
    public Status? Services { get; private init; }

    /// <summary>The worst status of the probe commitments; null where there is none that can be judged.</summary>
    public Status? Probes { get; private init; }

    /// <summary>Whether a service cannot be judged as written.</summary>
    public bool CannotJudge { get; private init; }

    /// <summary>Whether minutes and sessions are all met, with nothing that cannot be judged.</summary>
    /// <remarks>Met, nothing due and nothing left due count as met; within tolerance does not. Pace is information only.</remarks>
    public bool ServicesMet => !CannotJudge && !AnyServiceNotMet;

    /// <summary>Whether all probes are met.</summary>
    public bool ProbesMet => !AnyProbesNotMet;

    /// <summary>Whether minutes, sessions and probes are all met.</summary>
    public bool BothMet => ServicesMet && ProbesMet;

    /// <summary>With one more service line.</summary>
    public ProviderStanding WithService(Status status) => status == Status.CannotJudge
        ? this with { CannotJudge = true }
        : this with { Services = Worse(Services, status), AnyServiceNotMet = AnyServiceNotMet || !IsMet(status) };

    /// <summary>With one more probe commitment.</summary>
    public ProviderStanding WithProbes(Status status) =>
        this with { Probes = Worse(Probes, status), AnyProbesNotMet = AnyProbesNotMet || !IsMet(status) };

    /// <summary>With all lines and commitments of another.</summary>
    public ProviderStanding Plus(in ProviderStanding other) => new()
    {
        Services = other.Services is { } services ? Worse(Services, services) : Services,
        Probes = other.Probes is { } probes ? Worse(Probes, probes) : Probes,
        AnyServiceNotMet = AnyServiceNotMet || other.AnyServiceNotMet,
        AnyProbesNotMet = AnyProbesNotMet || other.AnyProbesNotMet,
        CannotJudge = CannotJudge || other.CannotJudge,
    };

    private static Status Worse(Status? before, Status status) => before > status ? before.Value : status;

    private static bool IsMet(Status status) =>
        status is Status.NothingDue or Status.NothingLeftDue or Status.Met or Status.OnPace or Status.BelowPace;
}
