using NodaTime;

namespace TeamCircle.Web.Ui;

/// <summary>What a minute rail draws: one strip for one service, one cell a window, all on the same axis of days.</summary>
/// <param name="First">The first day of the axis.</param>
/// <param name="Last">The last day of the axis.</param>
/// <param name="Today">The as-of day; a hairline where it lies on the axis.</param>
/// <param name="Unit">What is counted, in the plural: minutes, probes.</param>
/// <param name="Cells">In order of time.</param>
public sealed record Rail(LocalDate First, LocalDate Last, LocalDate Today, string Unit, IReadOnlyList<RailCell> Cells);

/// <summary>One window. All amounts in one unit.</summary>
/// <param name="Name">The window's name, as <see cref="Say.Window"/> says it.</param>
/// <param name="First">The window's first day.</param>
/// <param name="Last">The window's last day.</param>
/// <param name="Owed">What the promise comes to, before decisions.</param>
/// <param name="NotOwed">What was decided not owed, as far as it lacked.</param>
/// <param name="Given">What was given, make-ups that paid it included.</param>
/// <param name="Paid">The part of <paramref name="Given"/> that make-ups paid.</param>
/// <param name="Planned">What visits still planned would add.</param>
public sealed record RailCell(string Name, LocalDate First, LocalDate Last, int Owed, int NotOwed, int Given, int Paid, int Planned)
{
    public int Due => Owed - NotOwed;

    /// <summary>What lacks: the cell's right end stays open.</summary>
    public int Open => Math.Max(0, Due - Given);

    /// <summary>Whether all that lacks is planned.</summary>
    public bool IsPlanned => Open > 0 && Planned >= Open;

    public bool IsLater(LocalDate today) => First > today;
}
