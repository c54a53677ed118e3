using TeamCircle.Core.Sessions;
using TeamCircle.Data.Calendar;
using TeamCircle.Data.Sessions;

namespace TeamCircle.Web.Ui;

/// <summary>A visit in a line of words.</summary>
public static class Visits
{
    /// <summary>Vision, at home, with Bram Nakamura, make-up visit</summary>
    public static string Line(OwnVisit visit)
    {
        List<string> parts = [Say.Visit(visit.Kind, visit.Discipline), Say.Place(visit.Place)];
        if (visit.Partner is not null)
            parts.Add($"with {visit.Partner}");
        if (visit.IsMakeUp)
            parts.Add("make-up visit");
        return string.Join(", ", parts);
    }

    /// <summary>What became of it: given; offered, not taken up: nobody home; called off: learner unwell; planned.</summary>
    public static string Became(OwnVisit visit) => Became(visit.State, visit.Outcome, visit.Reason);

    public static string Became(VisitState state, VisitOutcome? outcome, Reason? reason)
    {
        var words = state == VisitState.CalledOff ? "called off" : Say.Outcome(outcome ?? VisitOutcome.Planned);
        return reason is { } why ? $"{words}: {Say.Reason(why)}" : words;
    }
}
