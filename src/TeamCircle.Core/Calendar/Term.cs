using NodaTime;

namespace TeamCircle.Core.Calendar;

/// <summary>A term of the school year; both days belong to it.</summary>
public sealed record Term(LocalDate FirstDay, LocalDate LastDay, TermKind Kind);

/// <summary>A day that differs from the ordinary ones. Several may fall on one date.</summary>
public sealed record SpecialDay(LocalDate Date, ClosureKind Kind);
