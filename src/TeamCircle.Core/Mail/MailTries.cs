using NodaTime;

namespace TeamCircle.Core.Mail;

/// <summary>How often a mail is tried, and how long it rests between two tries. The numbers are ours: about two days in all.</summary>
public static class MailTries
{
    public const int Most = 10;

    /// <summary>Changes of visits wait so long for others, so that many are one mail.</summary>
    public static readonly Duration Gathers = Duration.FromMinutes(30);

    /// <summary>In units of the first pause: 1, 5, 15, 60, 180, 360 ... that is minutes where the first is one.</summary>
    private static readonly int[] Steps = [1, 5, 15, 60, 180, 360, 600, 720, 720];

    /// <param name="tries">Tries so far, the one that failed among them; 1 or more.</param>
    /// <param name="first">The pause after the first.</param>
    public static Duration Pause(int tries, Duration first) => first * Steps[Math.Min(tries, Steps.Length) - 1];
}
