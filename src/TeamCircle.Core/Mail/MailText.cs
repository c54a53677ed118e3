namespace TeamCircle.Core.Mail;

/// <summary>The words of a mail. Plain text and HTML are made of the same ones.</summary>
/// <param name="Lines">Sentences, each a paragraph.</param>
/// <param name="Path">Where its link leads, below the portal's address.</param>
/// <param name="Link">The words on the link.</param>
/// <param name="Why">Why it came, and how to have it otherwise.</param>
/// <param name="Unsubscribe">The words on the link that stops the kind; null where nothing can.</param>
public sealed record MailText(string Language, string Subject, IReadOnlyList<string> Lines, string Path, string Link, string Why, string? Unsubscribe);

/// <summary>What each kind of mail says. No sentence has room for a name, a note or a figure of a learner.</summary>
public static class MailTexts
{
    private const string English = "en", Spanish = "es";
    private const string Choices = "/account/mail";
    private const string Stop = "Stop these mails";

    /// <summary>In both languages, as the next two: nobody knows yet, or any more, which one the reader reads.</summary>
    /// <param name="agency">The agency's name.</param>
    public static MailText Invitation(string agency, string path) => new(
        English, $"Join {agency} · Entrar en {agency}",
        [
            $"{agency} has put you on its list. The link works once, for three days. You choose your password there.",
            $"{agency} le ha puesto en su lista. El enlace sirve una sola vez, durante tres días. Allí elige su contraseña.",
        ],
        path, "Join · Entrar", $"This mail came because an administrator of {agency} invited you. If you don't know why, do nothing.", null);

    public static MailText NewPassword(string agency, string path) => new(
        English, "Choose a new password · Elija una contraseña nueva",
        [
            "A link for a new password was made for you. It works once, for three days. Setting one signs you out everywhere.",
            "Hay un enlace para que elija una contraseña nueva. Sirve una sola vez, durante tres días. Al elegirla se cierran todas sus sesiones.",
        ],
        path, "Choose a new password · Elegir una contraseña nueva", $"This mail came because an administrator of {agency} made the link. If you did not ask for it, tell them.", null);

    public static MailText NewEmail(string agency, string path) => new(
        English, "Is this your address? · ¿Es esta su dirección?",
        [
            "Somebody who is signed in wants to sign in with this address from now on. The link confirms it; it works once, for a day.",
            "Alguien con la sesión abierta quiere entrar desde ahora con esta dirección. El enlace lo confirma; sirve una sola vez, durante un día.",
        ],
        path, "Confirm the address · Confirmar la dirección", $"This mail came because the address was entered at {agency}'s portal. If that was not you, do nothing.", null);

    /// <summary>In both languages: at the moment of such a change nobody knows any more who reads the address.</summary>
    public static MailText SignInChanged(string agency) => new(
        English, "How you sign in has changed",
        [
            "The password, the e-mail address or the second step of your account was changed. If that was you, there is nothing to do. If not, tell your agency at once.",
            "Ha cambiado la contraseña, la dirección de correo o el segundo paso de su cuenta. Si fue usted, no tiene que hacer nada. Si no, avise a su agencia enseguida.",
        ],
        "/account", "Your account · Su cuenta", $"This mail about your account at {agency}'s portal always comes.", null);

    public static MailText VisitsAndMinutes(Digest digest) => new(
        English, "Visits and minutes",
        [.. Counted(
            (digest.ToLog, "visit to log", "visits to log"),
            (digest.Closing, "service with minutes missing in what closes this week", "services with minutes missing in what closes this week"),
            (digest.Probes, "goal with a probe due", "goals with probes due"),
            (digest.Reports, "progress report that waits for you", "progress reports that wait for you"),
            (digest.SetAside, "thing from a device to look at", "things from a device to look at"),
            (digest.Remarks, "thing that a family said to answer", "things that families said to answer"))],
        "/", "Open Today", "This mail counts what waits for you. When it comes is your choice, in your account, under Your mails.", Stop);

    public static MailText Reminder(Digest digest, DecisionDigest decisions) => new(
        English, "Before the week closes",
        [.. Counted(
            (digest.Closing, "service with minutes missing in what closes this week", "services with minutes missing in what closes this week"),
            (digest.ToLog, "visit to log", "visits to log"),
            (decisions.RequestsSoon, "request about a record with an outer date within two weeks", "requests about records with an outer date within two weeks"))],
        "/", "Open Today", "This mail comes once before a week closes, where no other mail said so. Which mails you get is your choice, in your account, under Your mails.", Stop);

    public static MailText WaitingForYourDecision(DecisionDigest digest) => new(
        English, "Waiting for your decision",
        [.. Counted(
            (digest.Undecided, "service or goal of which something was not given", "services or goals of which something was not given"),
            (digest.ToMeet, "time away after which the team is to meet", "times away after which the team is to meet"),
            (digest.Requests, "request about a record to answer", "requests about records to answer"),
            (digest.RequestsSoon, "of them with an outer date within two weeks", "of them with an outer date within two weeks"),
            (digest.Dates, "day that binds has passed or comes within 30 days", "days that bind have passed or come within 30 days"),
            (digest.LastDays, "last day of a colleague, with something to hand over", "last days of colleagues, with something to hand over"))],
        "/", "Open Today", "This mail counts what waits for your decision. When it comes is your choice, in your account, under Your mails.", Stop);

    public static MailText NewSummary(MailLanguage language) => language is MailLanguage.Spanish
        ? new(Spanish, "Hay un nuevo resumen", ["Hay un nuevo resumen para leer. Inicie sesión para verlo."], "/", "Leer el resumen",
            "Usted decide en su cuenta qué mensajes recibe y cuándo.", "No recibir más estos mensajes")
        : new(English, "A new summary is ready", ["There is a new summary to read. Sign in to see it."], "/", "Read the summary",
            "Which mails you get and when is your choice, in your account, under Your mails.", Stop);

    public static MailText VisitChanged(MailLanguage language) => language is MailLanguage.Spanish
        ? new(Spanish, "Ha cambiado una visita", ["Han cambiado una o más visitas. Inicie sesión para ver quién viene y cuándo."], "/", "Ver las visitas",
            "Usted decide en su cuenta qué mensajes recibe y cuándo.", "No recibir más estos mensajes")
        : new(English, "A visit has changed", ["One or more visits to come have changed. Sign in to see who comes and when."], "/", "See the visits",
            "Which mails you get and when is your choice, in your account, under Your mails.", Stop);

    /// <summary>What the test button sends.</summary>
    public static MailText Test(string agency) => new(
        English, "A test of the portal's mail", [$"If you read this, mail from {agency} reaches you."], Choices, "Your choice of mails",
        "This mail came because you pressed the test button.", null);

    private static IEnumerable<string> Counted(params (int Count, string One, string Many)[] parts) =>
        parts.Where(p => p.Count > 0).Select(p => $"{p.Count} {(p.Count == 1 ? p.One : p.Many)}.");
}
