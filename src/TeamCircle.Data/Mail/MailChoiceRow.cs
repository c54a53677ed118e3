using TeamCircle.Core.Mail;

namespace TeamCircle.Data.Mail;

/// <summary>Which mails a person wants, and when. Who has no row gets what a new row says, in the agency's zone.</summary>
public sealed class MailChoiceRow : IAgencyRow, IVersionedRow
{
    public int AgencyId { get; set; }
    public int PersonId { get; set; }

    /// <summary>The person's own zone by its name in the tz database; null: the agency's.</summary>
    public string? TimeZone { get; set; }
    public MailLanguage Language { get; set; }
    public bool VisitsAndMinutes { get; set; } = true;
    public bool WaitingForYourDecision { get; set; } = true;
    public bool NewSummary { get; set; } = true;
    public bool VisitChanged { get; set; } = true;

    /// <summary>Days of digests, bit 0 Monday to bit 6 Sunday.</summary>
    public int Days { get; set; } = 0b0011111;

    /// <summary>The hour of digests.</summary>
    public LocalTime At { get; set; } = new(7, 0);

    /// <summary>From this time on nothing comes until <see cref="QuietUntil"/>, over midnight where that is earlier. Equal: no quiet hours.</summary>
    public LocalTime QuietFrom { get; set; } = new(20, 0);
    public LocalTime QuietUntil { get; set; } = new(7, 0);
    public int Version { get; set; }

    /// <summary>Links can't be refused: without them nobody gets in.</summary>
    public bool Wants(MailKind kind) => kind switch
    {
        MailKind.VisitsAndMinutes or MailKind.Reminder => VisitsAndMinutes,
        MailKind.WaitingForYourDecision => WaitingForYourDecision,
        MailKind.NewSummary => NewSummary,
        MailKind.VisitChanged => VisitChanged,
        _ => true,
    };

    /// <param name="agencyZone">For who chose none.</param>
    public MailHours Hours(string agencyZone) => new(DateTimeZoneProviders.Tzdb[TimeZone ?? agencyZone], Days, At, QuietFrom, QuietUntil);

    internal void Refuse(MailKind kind)
    {
        VisitsAndMinutes &= kind is not (MailKind.VisitsAndMinutes or MailKind.Reminder);
        WaitingForYourDecision &= kind is not MailKind.WaitingForYourDecision;
        NewSummary &= kind is not MailKind.NewSummary;
        VisitChanged &= kind is not MailKind.VisitChanged;
    }
}
