namespace TeamCircle.Core.Mail;

/// <summary>How much of a provider's own waits; numbers of things, never whose.</summary>
/// <param name="ToLog">Visits that took place or should have, and were not logged.</param>
/// <param name="Closing">Services whose week, month or other window closes this week and lacks minutes.</param>
/// <param name="Probes">Goals whose window runs now and lacks probes.</param>
/// <param name="Reports">Paragraphs, signatures and reviews of progress reports.</param>
/// <param name="SetAside">Things that a device sent and that need a person.</param>
/// <param name="Remarks">What families said and nobody answered yet.</param>
public sealed record Digest(int ToLog, int Closing, int Probes, int Reports, int SetAside, int Remarks)
{
    public bool IsEmpty => ToLog + Closing + Probes + Reports + SetAside + Remarks == 0;
}

/// <summary>How many decisions wait for a case manager.</summary>
/// <param name="Undecided">Services and probes of which something was not given and nobody decided.</param>
/// <param name="ToMeet">Times away after which the team is to meet.</param>
/// <param name="Requests">Parents' requests about a record that nobody answered yet.</param>
/// <param name="RequestsSoon">Those of them whose outer date has passed or comes within <see cref="SoonDays"/> days.</param>
/// <param name="Dates">Days that bind and that have passed or come within 30 days.</param>
public sealed record DecisionDigest(int Undecided, int ToMeet, int Requests, int RequestsSoon, int Dates)
{
    /// <summary>Our number: two working weeks to answer in.</summary>
    public const int SoonDays = 14;

    /// <summary>Last days that are near or past, of people who leave something with one's learners; one's own too.</summary>
    public int LastDays { get; init; }

    public bool IsEmpty => Undecided + ToMeet + Requests + Dates + LastDays == 0;
}
