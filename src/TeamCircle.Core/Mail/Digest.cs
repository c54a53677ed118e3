namespace TeamCircle.Core.Mail;

/// <summary>How much of a provider's own waits; numbers of things, never whose.</summary>
/// <param name="ToLog">Visits that took place or should have, and were not logged.</param>
/// <param name="Closing">Services whose week, month or other window closes this week and lacks minutes.</param>
/// <param name="Probes">Goals whose window runs now and lacks probes.</param>
/// <param name="Reports">Paragraphs, signatures and reviews of progress reports.</param>
/// <param name="SetAside">Things that a device sent and that need a person.</param>
public sealed record Digest(int ToLog, int Closing, int Probes, int Reports, int SetAside)
{
    public bool IsEmpty => ToLog + Closing + Probes + Reports + SetAside == 0;
}

/// <summary>How many decisions wait for a case manager.</summary>
/// <param name="Undecided">Services and probes of which something was not given and nobody decided.</param>
/// <param name="ToMeet">Times away after which the team is to meet.</param>
public sealed record DecisionDigest(int Undecided, int ToMeet)
{
    public bool IsEmpty => Undecided + ToMeet == 0;
}
