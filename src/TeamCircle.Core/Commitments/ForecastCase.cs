using System.Text.Json;
using TeamCircle.Core.Cases;

namespace TeamCircle.Core.Commitments;

/// <summary>A case of kind <c>forecast</c>.</summary>
public sealed record ForecastCase(PastVisits Past, IReadOnlyList<ForecastWindow> Windows)
{
    /// <summary>The most visits still planned that one case may name, over all windows: their number counts with its square.</summary>
    public const int MostVisits = 200;

    private const int MinutesOfADay = 24 * 60;

    /// <summary>Reads a case strictly.</summary>
    /// <exception cref="CaseException">A field is missing, unknown, of the wrong kind, or contradicts another.</exception>
    public static ForecastCase Read(CaseField field)
    {
        field.Only("kind", "plannedPast", "givenPast", "windows");
        var planned = field.Get("plannedPast").Number(0, CommitmentCase.Most);
        var given = field.Get("givenPast").Number(0, CommitmentCase.Most);
        if (given > planned)
            throw field.Get("givenPast").Wrong("must not be more than plannedPast");
        var windows = field.Get("windows").List(window => new ForecastWindow(
            window.Only("need", "remaining").Get("need").Number(0, CommitmentCase.Most),
            window.Get("remaining").List(minutes => minutes.Number(1, MinutesOfADay))));
        if (windows.Sum(window => window.Visits.Count) > MostVisits)
            throw field.Get("windows").Wrong($"name more than {MostVisits} remaining visits");
        return new(new(planned, given), windows);
    }

    /// <summary>Works the case out, and writes the answer as one object.</summary>
    public void Write(Utf8JsonWriter json)
    {
        var forecast = Forecast.Of(Past, Windows);
        json.WriteStartObject();
        json.WriteNumber("chance", forecast.Chance);
        json.WriteNumber("expectedShort", forecast.ExpectedShort);
        json.WriteEndObject();
    }
}
