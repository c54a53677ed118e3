using NodaTime;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;

namespace TeamCircle.Core.Disputes;

/// <summary>What was decided about something not given, with the parts that it needs.</summary>
/// <param name="About">The code of the service or goal.</param>
/// <param name="IsProbes">Whether the amount is probes; minutes otherwise.</param>
/// <param name="FamilyToldOn">Null where nobody recorded it.</param>
/// <param name="Live">False once it was taken back.</param>
public sealed record DecisionFact(
    string About, bool IsProbes, int Amount, DecisionKind Kind, LocalDate DecidedOn, IReadOnlyList<int> DecidedBy, LocalDate? FamilyToldOn, string? Note, bool Live)
{
    /// <summary>"30 minutes of TF07-OT: make up; decided on 5 October by Marisol Quenby; the family was told on 6 October".</summary>
    public string Words(Func<int, string> names)
    {
        var amount = IsProbes ? (Amount == 1 ? "1 probe" : $"{Amount} probes") : Amount == 1 ? "1 minute" : $"{Amount} minutes";
        var told = FamilyToldOn is { } day ? $"the family was told on {ClockWords.Day(day)}" : "nobody recorded that the family was told";
        var words = $"{amount} of {About}: {Core.Words.Of(Kind)}; decided on {ClockWords.Day(DecidedOn)} by {string.Join(", ", DecidedBy.Select(names))}; {told}";
        return (Note is { Length: > 0 } note ? $"{words}. {note}" : words) + (Live ? "" : " (taken back)");
    }
}
