using TeamCircle.Core.Commitments;
using TeamCircle.Core.Time;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Commitments;

/// <summary>How the figures and the status of a period follow from its windows, in sentences.</summary>
public sealed class BalanceSums(Working working, bool isProbes)
{
    private Balance Balance => working.Balance;

    private PeriodBalance Sums => working.Balance.Minutes;

    private bool Carries => working.At.Policies.On(working.At.Period.Last).Surplus == Surplus.CarryWithinPeriod;

    /// <summary>The four figures, each with its sum.</summary>
    public IEnumerable<(string Name, string Sum)> Figures
    {
        get
        {
            var past = working.Closing.Where(w => w.IsPast).Select(w => w.Minutes).ToList();
            yield return ("Due so far", $"{Parts(past, w => w.Due)} = {Amount(Sums.DueSoFar)}, over the windows that closed before {Say.Day(Day.Date(working.At.AsOf))}");
            yield return ("Given so far", $"{Say.Number(Sums.DueSoFar)} due − {Say.Number(Sums.LackSoFar)} lacking = {Amount(Sums.GivenSoFar)}{(Carries ? "; what is beyond the plan in one week or month pays for another of the reporting period" : "; what is beyond one window does not pay for another")}");
            yield return ("Planned to come", $"{Say.Number(Sums.Lack)} lacking − {Say.Number(Sums.ShortAsPlanned)} that no visit is planned for = {Amount(Sums.PlannedToCome)}");
            yield return ("Still to plan", Amount(Sums.StillToPlan));
        }
    }

    /// <summary>What else is known about the period, where it is not nothing.</summary>
    public IEnumerable<(string Name, string Sum)> More
    {
        get
        {
            if (Sums.NotOwed > 0)
                yield return ("Decided not owed", Amount(Sums.NotOwed));
            if (Balance.HasSessions)
                yield return ("Sessions", $"{Say.Number(Balance.Sessions.Given)} of {Say.Sessions(Balance.Sessions.Due)} given; {Say.Number(Balance.Sessions.Lack)} lacking, {Say.Number(Balance.Sessions.Undecided)} of them undecided");
            if (Sums.Undecided > 0)
                yield return ("Undecided", $"{Amount(Sums.Undecided)} not given so far, about which nobody decided");
            if (!Balance.BroughtForward.IsNothing)
                yield return ("Brought forward", $"{Both(Balance.BroughtForward.Open)} open from earlier periods, {Both(Balance.BroughtForward.Paid)} made up since; it stands in no other figure here");
            if (Balance.MadeUpSince > 0)
                yield return ("Made up since", $"{Amount(Balance.MadeUpSince)}, by make-ups after the period");
            if (Balance.PlannedLater > 0)
                yield return ("Planned later", $"{Amount(Balance.PlannedLater)}, by make-ups planned after the period; they change no status");
            if (Balance.Outside > 0)
                yield return ("Counts nowhere", $"{Amount(Balance.Outside)}, whatever the period");
            if (working.Space is { } space && !space.Days.IsEmpty && Balance.SpaceLeft is { } left)
                yield return ("Space left", SpaceLeft(space, left));
        }
    }

    /// <summary>Why the status is what it is.</summary>
    public string Status => Balance.Status switch
    {
        Core.Commitments.Status.NothingDue => "No window that closes in this period owes anything.",
        Core.Commitments.Status.NothingLeftDue => "All that was owed was decided not owed.",
        Core.Commitments.Status.Met => "Nothing that is due lacks.",
        Core.Commitments.Status.WithinTolerance => "The period is over and something lacks, within the agency's tolerance.",
        Core.Commitments.Status.OnPace => "Nothing closes in this period; what is open has been given at the pace that keeps it.",
        Core.Commitments.Status.BelowPace => "Nothing closes in this period; what is open has been given more slowly than the pace that keeps it.",
        Core.Commitments.Status.OnCourse => "Nothing lacks so far, and visits are planned for all that is still to come.",
        Core.Commitments.Status.NotPlanned => "Nothing lacks so far, but not all that is still to come is planned.",
        Core.Commitments.Status.CatchingUp => "Something lacks so far, and visits are planned that make up for all of it.",
        Core.Commitments.Status.Behind => "Something lacks so far, and not all of what lacks is planned.",
        Core.Commitments.Status.CannotFit => "What is not planned does not fit any more into the learner's days of this period.",
        Core.Commitments.Status.NotMet => "The period is over and something lacks.",
        _ => "The plan's words promise no amount.",
    } + (Balance.Worse == WorseUnit.Sessions ? " By minutes it would stand better; the sessions decide." : "");

    /// <summary>How the pace of an open window came about.</summary>
    public string Pace(PaceWorking pace)
    {
        var words = $"By {Say.Day(Day.Date(pace.UpTo))} {Amount(pace.Whole.Rounded)} would keep pace";
        if (pace.Decided > 0)
            words += $"; less {Say.Number(pace.Decided)} decided not owed: {Say.Number(pace.Pace)}";
        return $"{words}. {Say.Begin(Amount(pace.Given))} given: {(pace.IsOnPace ? "on pace" : "below pace")}. It is judged when the window closes.";
    }

    private string Both(DebtAmount amount) => amount.Sessions > 0 ? $"{Amount(amount.Minutes)} and {Say.Sessions(amount.Sessions)}" : Amount(amount.Minutes);

    private string SpaceLeft(SpaceWorking space, int left)
    {
        var words = $"{Say.Count(space.InstructionalDays, "school day")} from {Say.Dates(space.Days.Start, space.Days.End)} × {Amount(space.Limit)} a day";
        if (space.Taken.Count > 0)
            words += $", less what is taken on {Say.Count(space.Taken.Count, "day")}";
        return $"{words} = {Amount(left)}; at most, for this line alone";
    }

    private static string Parts(List<WindowBalance> windows, Func<WindowBalance, int> pick) =>
        windows.Count == 0 ? "no window yet" : string.Join(" + ", windows.Select(w => Say.Number(pick(w))));

    private string Amount(int count) => isProbes ? Say.Probes(count) : Say.Minutes(count);
}
