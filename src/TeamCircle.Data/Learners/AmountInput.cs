using TeamCircle.Core.Learners;
using TeamCircle.Core.Time;

namespace TeamCircle.Data.Learners;

/// <summary>An amount as the plan writes it and as we read it, on the forms that add a service and that amend one.</summary>
public sealed class AmountInput
{
    public int? Quantity { get; set; }
    public int? QuantityTo { get; set; }
    public int? Sessions { get; set; }
    public EveryUnit EveryUnit { get; set; }
    public int? EveryCount { get; set; } = 1;

    /// <summary>Whether minutes that an assistant gives under a supervisor count.</summary>
    public bool AssistantsCount { get; set; }
    public string? PlanWords { get; set; }
    public string? PlanPage { get; set; }
    public string? Reason { get; set; }

    internal AmountEntry Entry => new(Quantity, QuantityTo, Sessions, EveryUnit, EveryCount ?? 0, PlanWords, Reason);

    internal ServiceVersionRow Version(ServiceRow service, string code, LocalDate from) => new()
    {
        AgencyId = service.AgencyId,
        LearnerId = service.LearnerId,
        ServiceId = service.Id,
        Code = code,
        FromDay = from,
        Quantity = Quantity!.Value,
        QuantityTo = QuantityTo,
        Sessions = Sessions,
        AssistantsCount = AssistantsCount,
        PlanWords = PlanWords?.Trim(),
        PlanPage = PlanPage?.Trim(),
        Reason = Reason?.Trim(),
    };
}
