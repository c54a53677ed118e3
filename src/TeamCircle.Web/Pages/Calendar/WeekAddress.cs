using System.Globalization;
using NodaTime;
using NodaTime.Text;

namespace TeamCircle.Web.Pages.Calendar;

/// <summary>The address of one view of the calendar; what it shows is all in it.</summary>
public sealed record WeekAddress(int? Learner, bool Team, LocalDate? Week, bool List)
{
    public override string ToString()
    {
        var parts = new List<string>(4);
        if (Learner is { } learner)
            parts.Add($"learner={learner.ToString(CultureInfo.InvariantCulture)}");
        if (Team)
            parts.Add("team=true");
        if (Week is { } week)
            parts.Add($"week={LocalDatePattern.Iso.Format(week)}");
        if (List)
            parts.Add("list=true");
        return parts.Count == 0 ? "/calendar" : $"/calendar?{string.Join('&', parts)}";
    }

    /// <summary>Where a visit is scheduled on a day from a time on; the form that opens holds them already.</summary>
    public static string NewVisit(int? learner, LocalDate day, LocalTime start)
    {
        var whose = learner is { } id ? $"learner={id.ToString(CultureInfo.InvariantCulture)}&" : "";
        return $"/visits/new?{whose}day={LocalDatePattern.Iso.Format(day)}&start={start.ToString("HH:mm", CultureInfo.InvariantCulture)}";
    }
}
