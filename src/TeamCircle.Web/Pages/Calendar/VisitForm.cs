using System.ComponentModel.DataAnnotations;
using NodaTime;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Learners;
using TeamCircle.Data.Calendar;

namespace TeamCircle.Web.Pages.Calendar;

/// <summary>How often a new visit is to be.</summary>
public enum Often
{
    Once,
    Weeks,
    Months,
}

/// <summary>The one form for a new visit and for a series.</summary>
public sealed record VisitForm
{
    /// <summary>"service:12", or a kind and a learner: "Evaluation:3".</summary>
    [StringLength(40)]
    public string? What { get; init; }
    public int? ProviderId { get; init; }
    public int? PartnerId { get; init; }

    [EnumDataType(typeof(Often))]
    public Often Often { get; init; }

    /// <summary>The day of a single visit, or the first day of a series.</summary>
    public LocalDate? OnDay { get; init; }
    public LocalDate? Until { get; init; }
    public int Every { get; init; } = 1;
    public IsoDayOfWeek[] Days { get; init; } = [];
    public int Which { get; init; } = 1;
    public LocalTime? Start { get; init; }
    public int? Minutes { get; init; }

    [EnumDataType(typeof(Place))]
    public Place? Place { get; init; }
    public int? PlaceId { get; init; }

    [EnumDataType(typeof(SessionFormat))]
    public SessionFormat? Format { get; init; }
    public LocalDate? PaysOn { get; init; }
    public int? AwardId { get; init; }
    public bool Confirmed { get; init; }
    public bool LeaveOut { get; init; }
    public int[] Routines { get; init; } = [];

    public ScheduleVisit.Input Single(PlanningChoices choices) => About(new ScheduleVisit.Input { OnDay = OnDay, PaysOn = PaysOn, AwardId = AwardId }, choices);

    public ScheduleSeries.Input Series(PlanningChoices choices) => About(new ScheduleSeries.Input
    {
        FirstDay = OnDay,
        EndsOn = Until,
        LeaveOut = LeaveOut,
        Cadence = new()
        {
            Unit = Often == Often.Months ? CadenceUnit.Month : CadenceUnit.Week,
            Every = Every,
            Which = Which,
            Days = Days.Length == 0 && OnDay is { } day ? [day.DayOfWeek] : Days,
        },
    }, choices);

    /// <summary>The name of this form's field for a problem of an operation.</summary>
    public static string FieldOf(string field) => field switch
    {
        "FirstDay" => nameof(OnDay),
        "EndsOn" => nameof(Until),
        "ServiceId" => nameof(What),
        _ when field.StartsWith("Cadence.", StringComparison.Ordinal) => field["Cadence.".Length..],
        _ => field,
    };

    private T About<T>(T input, PlanningChoices choices) where T : NewVisitInput
    {
        var (kind, service, learner) = Read(choices);
        return input with
        {
            Learner = learner,
            Kind = kind,
            ServiceId = service,
            ProviderId = ProviderId,
            PartnerId = PartnerId,
            Start = Start,
            Minutes = Minutes,
            Place = Place,
            PlaceId = PlaceId,
            Format = Format,
            Confirmed = Confirmed,
            Routines = Routines,
        };
    }

    // What cannot be read is about the first learner in reach, without a service: the operation asks for one.
    private (VisitKind Kind, int? Service, int Learner) Read(PlanningChoices choices)
    {
        var parts = What?.Split(':') ?? [];
        if (parts.Length == 2 && int.TryParse(parts[1], out var id))
        {
            if (parts[0] == "service" && choices.Services.FirstOrDefault(s => s.Id == id) is { } service)
                return (VisitKind.Service, id, service.LearnerId);
            if (Enum.TryParse<VisitKind>(parts[0], out var kind) && kind != VisitKind.Service)
                return (kind, null, id);
        }
        return (VisitKind.Service, null, choices.Learners.Count > 0 ? choices.Learners[0].Id : 0);
    }
}
