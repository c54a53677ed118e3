using System.ComponentModel.DataAnnotations;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;

namespace TeamCircle.Data.Calendar;

/// <summary>When, how long and where a visit is to be: what may be said for a new one and changed later.</summary>
public abstract record VisitInput
{
    public LocalTime? Start { get; init; }
    public int? Minutes { get; init; }

    /// <summary>Null: as the service promises, or as it stands.</summary>
    [EnumDataType(typeof(Place))]
    public Place? Place { get; init; }

    /// <summary>A place of the agency's list; null: the learner's own of that kind.</summary>
    public int? PlaceId { get; init; }

    /// <summary>Whether a person confirmed what stands against it and can be confirmed.</summary>
    public bool Confirmed { get; init; }
}

/// <summary>What is said of a new visit or series.</summary>
public abstract record NewVisitInput : VisitInput
{
    public int Learner { get; init; }

    [EnumDataType(typeof(VisitKind))]
    public VisitKind Kind { get; init; }

    /// <summary>Needed for a visit of a service.</summary>
    public int? ServiceId { get; init; }

    /// <summary>Null: the caller.</summary>
    public int? ProviderId { get; init; }

    /// <summary>Who treats together with them, where the service provides for co-treatment.</summary>
    public int? PartnerId { get; init; }

    [EnumDataType(typeof(SessionFormat))]
    public SessionFormat? Format { get; init; }

    /// <summary>Routines to be practised.</summary>
    public int[] Routines { get; init; } = [];
}

/// <summary>How often visits recur, as a form says it.</summary>
public sealed record CadenceInput
{
    [EnumDataType(typeof(CadenceUnit))]
    public CadenceUnit Unit { get; init; }
    public int Every { get; init; } = 1;
    public IsoDayOfWeek[] Days { get; init; } = [];
    public int Which { get; init; } = 1;

    internal Cadence Cadence => new(Unit, Every, [.. Days.Where(d => d is >= IsoDayOfWeek.Monday and <= IsoDayOfWeek.Sunday)], Which);

    public static CadenceInput Of(Cadence cadence) => new() { Unit = cadence.Unit, Every = cadence.Every, Days = [.. cadence.Days], Which = cadence.Which };
}
