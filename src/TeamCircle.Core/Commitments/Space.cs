namespace TeamCircle.Core.Commitments;

/// <summary>What still fits into the learner's days (docs/rules.md, part 8): an upper bound for one line.</summary>
internal static class Space
{
    /// <summary>The days that are left for a line in the period, from the as-of day on.</summary>
    public static Time.DateRange Days(in LineFacts line, in Judging at) =>
        new Time.DateRange(at.AsOf, at.Period.Last).And(at.Period).And(line.Promise.Dates);

    /// <summary>Minutes left over the instructional days, or null where the learner's own time is not used.</summary>
    public static int? Left(in LineFacts line, in Judging at)
    {
        if (line.DailyLimit is not { } limit)
            return null;
        var days = Days(line, at);
        var school = line.Windows.SchoolDays;
        if (line.Busy is not { } busy)
            return limit * school.Instructional(days);
        var left = 0;
        for (var day = days.First; day <= days.Last; day++)
        {
            var free = limit - busy.On(day);
            if (free > 0 && school.IsInstructional(day))
                left += free;
        }
        return left;
    }
}
