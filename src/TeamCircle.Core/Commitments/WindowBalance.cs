namespace TeamCircle.Core.Commitments;

/// <summary>What one promise owes in one window, and what was given against it, in one unit.</summary>
/// <remarks>
/// <para>Unit: whole minutes, whole sessions or whole probes.</para>
/// <para>What is given beyond what is due stays in its window; whether it may stand for another is a matter of the period
/// (docs/rules.md, part 7). Example: owed 60, decided not owed 15, given 30: due 45, lack 15.</para>
/// </remarks>
public record struct WindowBalance
{
    /// <summary>What the promise comes to in this window, rounded once.</summary>
    public int Owed { get; internal set; }

    /// <summary>All that counts in this window as of the day: ordinary visits, make-ups that pay it, rests of make-ups.</summary>
    public int Given { get; internal set; }

    /// <summary>The part of <see cref="Given"/> that make-ups paid.</summary>
    public int Paid { get; internal set; }

    /// <summary>What visits still planned within the period would add.</summary>
    public int Planned { get; internal set; }

    /// <summary>The sum of the decisions "not owed", however much lacks.</summary>
    public int DecidedNotOwed { get; internal set; }

    /// <summary>The sum of the decisions "make up" and "team meeting".</summary>
    public int DecidedOtherwise { get; internal set; }

    /// <summary>What was decided not owed, as far as it was lacking: a decision never exceeds what lacks.</summary>
    public readonly int NotOwed => Math.Min(DecidedNotOwed, Math.Max(0, Owed - Given));

    /// <summary>What has to be given after decisions.</summary>
    public readonly int Due => Owed - NotOwed;

    /// <summary>What is still missing; zero once the amount due is met.</summary>
    public readonly int Lack => Math.Max(0, Due - Given);

    /// <summary>What was given beyond the amount due.</summary>
    public readonly int Surplus => Math.Max(0, Given - Due);

    /// <summary>What would still be missing if all that is planned took place.</summary>
    public readonly int Short => Math.Max(0, Due - Given - Planned);

    /// <summary>The part of the lack that nobody has decided about; counted once the window is past.</summary>
    public readonly int Undecided => Math.Min(Lack, Math.Max(0, Due - (Given - Paid) - DecidedOtherwise));

    /// <summary>Counts something given here, or still planned.</summary>
    internal void Add(int amount, bool planned)
    {
        if (planned)
            Planned += amount;
        else
            Given += amount;
    }

    /// <summary>Counts what a make-up pays here.</summary>
    internal void Pay(int amount, bool planned)
    {
        Add(amount, planned);
        if (!planned)
            Paid += amount;
    }
}
