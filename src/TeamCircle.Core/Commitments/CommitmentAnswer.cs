using System.Text.Json;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Commitments;

/// <summary>Writes what the ledger answers as the JSON of case kind <c>commitment</c>.</summary>
public static class CommitmentAnswer
{
    /// <summary>Writes one object: the figures, the windows that close in the period, and the open one.</summary>
    public static void Write(Utf8JsonWriter json, Working working)
    {
        json.WriteStartObject();
        WriteFigures(json, working.Balance);
        json.WriteStartArray("windows");
        foreach (var window in working.Closing)
            WriteWindow(json, window, working.Balance.HasSessions);
        json.WriteEndArray();
        json.WriteStartArray("open");
        foreach (var (window, pace) in working.Open)
            WriteOpen(json, window, pace);
        json.WriteEndArray();
        json.WriteEndObject();
    }

    /// <summary>Writes the figures alone, into an object that is already open: also the entries of an audit.</summary>
    public static void WriteFigures(Utf8JsonWriter json, in Balance balance)
    {
        var minutes = balance.Minutes;
        json.WriteNumber("owed", minutes.Owed);
        json.WriteNumber("notOwed", minutes.NotOwed);
        json.WriteNumber("due", minutes.Due);
        json.WriteNumber("given", minutes.Given);
        json.WriteNumber("credited", minutes.Credited);
        json.WriteNumber("lack", minutes.Lack);
        json.WriteNumber("lackSoFar", minutes.LackSoFar);
        json.WriteNumber("undecided", minutes.Undecided);
        json.WriteNumber("dueSoFar", minutes.DueSoFar);
        json.WriteNumber("givenSoFar", minutes.GivenSoFar);
        json.WriteNumber("plannedToCome", minutes.PlannedToCome);
        json.WriteNumber("stillToPlan", minutes.StillToPlan);
        json.WriteNumber("shortAsPlanned", minutes.ShortAsPlanned);
        json.WriteNumber("plannedLater", balance.PlannedLater);
        if (balance.SpaceLeft is { } space)
            json.WriteNumber("spaceLeft", space);
        else
            json.WriteNull("spaceLeft");
        json.WriteNumber("madeUpSince", balance.MadeUpSince);
        json.WriteNumber("outside", balance.Outside);
        if (balance.HasSessions)
            WriteSessions(json, balance.Sessions);
        json.WriteNumber("openOwed", balance.Open.Owed);
        json.WriteNumber("openPace", balance.Open.Pace);
        json.WriteNumber("openGiven", balance.Open.Given);
        json.WriteString("status", Code(balance.Status));
    }

    /// <summary>The code of a status in files: CatchingUp is <c>catchingUp</c>.</summary>
    public static string Code(Status status) => JsonNamingPolicy.CamelCase.ConvertName(status.ToString());

    private static void WriteSessions(Utf8JsonWriter json, in PeriodBalance sessions)
    {
        json.WriteNumber("sessionsDue", sessions.Due);
        json.WriteNumber("sessionsGiven", sessions.Given);
        json.WriteNumber("sessionsLack", sessions.Lack);
        json.WriteNumber("sessionsUndecided", sessions.Undecided);
    }

    private static void WriteWindow(Utf8JsonWriter json, WindowWorking window, bool withSessions)
    {
        json.WriteStartObject();
        WriteDates(json, window.Window);
        json.WriteNumber("scheduledDays", window.Window.ScheduledDays);
        json.WriteNumber("activeDays", window.Window.ActiveDays);
        json.WriteNumber("owed", window.Minutes.Owed);
        json.WriteNumber("notOwed", window.Minutes.NotOwed);
        json.WriteNumber("due", window.Minutes.Due);
        json.WriteNumber("given", window.Minutes.Given);
        json.WriteNumber("lack", window.Minutes.Lack);
        json.WriteNumber("surplus", window.Minutes.Surplus);
        json.WriteNumber("planned", window.Minutes.Planned);
        if (withSessions)
        {
            json.WriteNumber("sessionsOwed", window.Sessions.Owed);
            json.WriteNumber("sessionsDue", window.Sessions.Due);
            json.WriteNumber("sessionsGiven", window.Sessions.Given);
        }
        json.WriteEndObject();
    }

    private static void WriteOpen(Utf8JsonWriter json, WindowWorking window, PaceWorking pace)
    {
        json.WriteStartObject();
        WriteDates(json, window.Window);
        json.WriteNumber("owed", window.Minutes.Owed);
        json.WriteNumber("pace", pace.Pace);
        json.WriteNumber("given", pace.Given);
        json.WriteBoolean("onPace", pace.IsOnPace);
        json.WriteEndObject();
    }

    private static void WriteDates(Utf8JsonWriter json, in Window window)
    {
        WriteDate(json, "start", window.Days.First);
        WriteDate(json, "end", window.Days.Last);
        WriteDate(json, "closes", window.Closes);
    }

    private static void WriteDate(Utf8JsonWriter json, string name, int day) =>
        json.WriteString(name, Day.Date(day).ToString("uuuu-MM-dd", System.Globalization.CultureInfo.InvariantCulture));
}
