using NodaTime;

namespace TeamCircle.Web.Pages.Calendar;

/// <summary>The fields that say how often visits recur.</summary>
/// <param name="Prefix">The name of the bound property.</param>
public sealed record CadenceFields(int Every, IReadOnlyList<IsoDayOfWeek> Days, int Which, LocalDate? Until, string Prefix);
