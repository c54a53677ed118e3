using System.Globalization;
using Microsoft.AspNetCore.Mvc.Rendering;
using TeamCircle.Core.Closing;
using TeamCircle.Data.Closing;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Closing;

/// <summary>Awards of compensatory services in words.</summary>
public static class AwardWords
{
    public static IReadOnlyList<SelectListItem> Sources { get; } =
        [new("Choose", ""), .. Ui.Choices.Of(Enum.GetValues<AwardSource>(), s => Say.Begin(Source(s)))];

    public static IReadOnlyList<SelectListItem> Units { get; } = Ui.Choices.Of(Enum.GetValues<AwardUnit>(), u => u == AwardUnit.Minutes ? "Minutes" : "Sessions");

    /// <summary>What a visit can be for, with a first choice for none.</summary>
    public static IReadOnlyList<SelectListItem> Choices(IEnumerable<AwardChoice> awards) =>
        [new("None: it counts for the service", ""), .. awards.Select(a => new SelectListItem($"{a.Learner}: {Of(a)}", a.Id.ToString(CultureInfo.InvariantCulture)))];

    /// <summary>120 minutes of occupational therapy, by a settlement</summary>
    public static string Of(AwardChoice award) => $"{Amount(award.Unit, award.Amount)} of {Core.Words.Of(award.Discipline)}, by {Source(award.Source)}";

    public static string Source(AwardSource source) => source switch
    {
        AwardSource.Team => "the learner's team",
        AwardSource.Settlement => "a settlement",
        AwardSource.Complaint => "the answer to a complaint",
        AwardSource.Hearing => "a hearing",
        _ => "somebody else, as the paper says",
    };

    public static string Amount(AwardUnit unit, int count) => unit == AwardUnit.Minutes ? Say.Minutes(count) : Say.Sessions(count);

    /// <summary>120 minutes awarded; 30 given; 90 left, 30 of them planned.</summary>
    public static string Balance(AwardBalance balance) =>
        $"{Amount(balance.Unit, balance.Awarded)} awarded − {Say.Number(balance.Given)} given = {Amount(balance.Unit, balance.Left)} left"
        + (balance.Planned > 0 && balance.Left > 0 ? $", {Say.Number(Math.Min(balance.Planned, balance.Left))} of it planned" : "")
        + (balance.Given > balance.Awarded ? $"; {Amount(balance.Unit, balance.Given - balance.Awarded)} beyond the award" : "");

    public static string Dates(NodaTime.LocalDate from, NodaTime.LocalDate? until) =>
        until is { } last ? $"from {Say.Dates(from, last)}" : $"from {Say.Date(from)}; the paper names no last day";
}

/// <summary>An award with its own balance and its visits.</summary>
public sealed class AwardView(BroughtForwardPage page, AwardOnRecord award, bool isOnTeam, bool manages)
{
    public AwardRow Row => award.Row;

    public string Title => $"{AwardWords.Amount(Row.Unit, Row.Amount)} of {Core.Words.Of(Row.Discipline)}";

    public string By => Row.ServiceId is { } service ? $"by the service {page.Services.GetValueOrDefault(service).Code}" : $"by any service of {Core.Words.Of(Row.Discipline)}";

    public string Balance => AwardWords.Balance(award.Balance);

    public string Who => Row.MayGive.Length == 0 ? "whoever may give the service"
        : Say.List([.. Row.MayGive.Select(p => page.People.GetValueOrDefault(p, "somebody"))]);

    public IEnumerable<(string Day, string What, string? Address)> Visits =>
        award.Given.Select(v => (Say.ShortDay(v.OnDay), $"{(v.Minutes == 0 ? "offered, not taken up" : $"{Say.Minutes(v.Minutes)} given")}, {Name(v)}", Address(v)))
            .Concat(award.Planned.Select(v => (Say.ShortDay(v.OnDay), $"{Say.Minutes(v.Minutes)} planned, {Name(v)}", Address(v))));

    public string? LogAddress => isOnTeam && award.Balance.Left > 0 && ServiceToLog is { } service
        ? $"/visits/new/log?service={service}&award={Row.Id}" : null;

    public string? ScheduleAddress => isOnTeam && award.Balance.StillToPlan > 0 && ServiceToLog is { } service
        ? $"/calendar/new?service={service}&award={Row.Id}" : null;

    /// <summary>Null while visits name it: then it can't be taken back.</summary>
    public string? TakeBackAddress => manages && award.Given.Count + award.Planned.Count == 0 ? $"/learners/{page.Learner}/awards/{Row.Id}/take-back" : null;

    /// <summary>The one service by which it is given; null where several are.</summary>
    private int? ServiceToLog => Row.ServiceId ?? page.Services.Where(s => s.Value.Discipline == Row.Discipline).Select(s => (int?)s.Key).ToList() switch
    {
        [var only] => only,
        _ => null,
    };

    private string Name(AwardVisitOnRecord visit) => page.People.GetValueOrDefault(visit.ProviderId, "somebody");

    private string? Address(AwardVisitOnRecord visit) => isOnTeam ? $"/visits/{visit.Visit}" : null;
}
