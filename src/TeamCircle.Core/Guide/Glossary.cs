using TeamCircle.Core.Commitments;
using TeamCircle.Core.Family;

namespace TeamCircle.Core.Guide;

/// <summary>The one glossary: the words of pages, mails, files and the guide. Whoever says one of them takes it from here.</summary>
/// <remarks>What families read in whole sentences stands in <see cref="FamilyGlossary"/>, which takes its words from here too.</remarks>
public static class Glossary
{
    // ------------------------------------------------------------ the promise
    public static readonly Term Plan = new("plan", "The learner's education plan (IEP) as the team signed it; its own words stand beside our reading of them.")
    {
        Family = new("the plan", "el plan"),
        Told = new("The paper that you and the school agreed on: it says which help your child gets.", "El documento que usted y la escuela acordaron: dice qué ayuda recibe su hija o hijo."),
    };
    public static readonly Term Service = new("service", "One promise of the plan: a discipline, an amount, how often, where, from when to when.")
    {
        Family = new("service", "servicio"),
        Told = new("One kind of help in the plan, such as vision teaching.", "Un tipo de ayuda del plan, como la enseñanza visual."),
        Never = ["service line", "service lines"],
    };
    public static readonly Term Period = new("reporting period", "The span of days for which minutes and probes are judged, and after which the family gets a progress report.")
    {
        Family = new("this part of the school year", "esta parte del año escolar"),
        Told = new("The weeks that are counted together, up to the next report.", "Las semanas que se cuentan juntas, hasta el próximo informe."),
    };
    public static readonly Term Window = new("window", "The week, month, reporting period or plan year for which a promise is counted; a page names it, such as week of 14 September. It is judged once, whole.");
    public static readonly Term Owed = new("owed", "What the promise comes to in one week or month, by the school days in it.");
    public static readonly Term Given = new("given", "Minutes that took place and count: the visit's length, less what was entered as not counting.")
    {
        Family = new("given", "dado"),
        Told = new("The minutes that really took place.", "Los minutos que de verdad tuvieron lugar."),
    };
    public static readonly Term Due = new("due", "What is owed, less what people decided is not owed.")
    {
        Family = new("due so far", "lo que tocaba hasta ahora"),
        Told = new("What the plan promised for the weeks that are over.", "Lo que el plan prometía para las semanas que ya pasaron."),
    };
    public static readonly Term NotYetGiven = new("not yet given", "What is due and has not taken place; after the reporting period: not given.")
    {
        Family = new("not yet given", "faltan por dar"),
        Told = new("Minutes that were promised for a week that is over and did not take place. Beside them stands what is planned.", "Minutos prometidos para una semana que ya pasó y que no tuvieron lugar. Al lado dice qué está previsto."),
        Never = ["shortfall", "deficit"],
    };
    public static readonly Term NotOwed = new("not owed", "What named people decided need not be made up; it stands with their names, their reason and the day the family was told.")
    {
        Family = new("need not be made up", "no hace falta recuperar"),
        Told = new("The team decided, on the day that stands beside it, that these minutes will not be caught up. You can say that you do not agree.", "El equipo decidió, en la fecha que dice al lado, que estos minutos no se recuperan. Usted puede decir que no está de acuerdo."),
        Never = ["waived", "forgiven", "excused"],
    };
    public static readonly Term BeyondPlan = new("beyond the plan", "What was given past what is due; whether it may stand for another week is a matter of the agency's policy.") { Never = ["surplus", "overage"] };
    public static readonly Term MakeUp = new("make-up visit", "A visit that names the week or month whose missing minutes it makes up for.")
    {
        Family = new("extra visit to catch up", "visita adicional para recuperar minutos"),
        Told = new("A visit in addition to the usual ones, for minutes that did not take place.", "Una visita además de las de siempre, por minutos que no tuvieron lugar."),
    };
    public static readonly Term BroughtForward = new("brought forward", "What a closed count left open; it is made up beside the current promise, and the closed figures stay.") { Never = ["carry-over", "rollover"] };
    public static readonly Term Compensatory = new("compensatory services", "Minutes awarded from outside, by a team, a settlement or a hearing; never worked out from minutes missed.");
    public static readonly Term ToCheck = new("things to check", "What the count found and a person should look at: a visit nobody logged, a day on which nothing is owed.");
    public static readonly Term Working = new("how this was worked out", "The page behind a figure: every week's sum, and each visit and decision in it.");

    // ------------------------------------------------------------ statuses
    private static readonly Dictionary<Status, Term> Statuses = new()
    {
        [Status.NothingDue] = new("nothing due", "No week or month that closes in the reporting period owes anything."),
        [Status.NothingLeftDue] = new("decided and nothing left due", "Something was owed, and all that lacked was decided not owed."),
        [Status.Met] = new("met", "All that is due in the reporting period was given."),
        [Status.WithinTolerance] = new("within tolerance", "The reporting period is over and no more lacks than the agency's policy allows; it is never called met."),
        [Status.OnPace] = new("on pace", "A promise for the whole plan year, given at least as fast as the days go by."),
        [Status.OnCourse] = new("on course", "Nothing lacks so far, and visits are planned for the rest."),
        [Status.NotPlanned] = new("not planned yet", "Nothing lacks so far, but visits are not planned for all of the rest."),
        [Status.CatchingUp] = new("make-ups planned", "Something lacks so far, and planned visits bring all of it."),
        [Status.BelowPace] = new("below pace", "A promise for the whole plan year, given more slowly than the days go by."),
        [Status.Behind] = new("to make up", "Something lacks so far, and planned visits do not bring all of it."),
        [Status.CannotFit] = new("team must decide", "What is not planned no longer fits into the learner's days of the reporting period."),
        [Status.NotMet] = new("not met", "The reporting period is over and more lacks than the tolerance allows."),
        [Status.CannotJudge] = new("can't be judged as written", "The plan's words promise no amount, such as \"up to 60 minutes\" or \"as needed\"."),
    };

    /// <summary>The word for a status, and what it means.</summary>
    public static Term Of(Status status) => Statuses[status];

    // ------------------------------------------------------------ visits
    public static readonly Term Visit = new("visit", "The appointment: a day, a time, a place, a person, a learner.")
    {
        Family = new("visit", "visita"),
        Told = new("When somebody of the team comes to you.", "Cuando alguien del equipo viene a su casa."),
    };
    public static readonly Term Session = new("session", "One learner's minutes for one service inside a visit; some plans promise a number of them.");
    public static readonly Term NotTakenUp = new("offered, not taken up", "Somebody was there at the agreed time and it could not take place.")
    {
        Family = new("was there, but it did not take place", "estuvo, pero no se pudo hacer"),
        Told = new("Somebody came, and it could not be done.", "Alguien vino, y no se pudo hacer."),
        Never = ["no-show", "no show"],
    };
    public static readonly Term NotOffered = new("not offered", "The visit was not held, or was called off, on whoever's side the reason lay.")
    {
        Family = new("did not take place", "no tuvo lugar"),
        Told = new("The visit was not held. The reason stands beside it.", "La visita no se hizo. El motivo está al lado."),
    };
    public static readonly Term Countersigned = new("countersigned", "Read and stood for by the supervisor of an assistant; before that an assistant's minutes count 0.") { Never = ["co-signed"] };
    public static readonly Term SetAside = new("set aside", "Something a device sent that could not be taken as it is: kept whole, and waiting for a person.") { Never = ["rejected", "sync error"] };
    public static readonly Term Hold = new("hold", "Stops practising at once, on the server and on each device at its next contact; ended by whoever owns the part.");
    public static readonly Term Quiet = new("quiet", "Set by one named person when a child has died or is dying: nothing that the portal does by itself reminds anybody any more.");

    // ------------------------------------------------------------ teaching
    public static readonly Term Routine = new("routine", "A part of the learner's day in which goals are practised, written as a card: cue, position, steps, prompts.")
    {
        Family = new("routine", "rutina"),
        Told = new("Something that happens on most days, such as the morning wash, in which your child learns.", "Algo que pasa casi todos los días, como lavarse por la mañana, y en lo que su hija o hijo aprende."),
    };
    public static readonly Term ObjectCue = new("object cue", "A thing that tells the learner what comes next.")
    {
        Family = new("the object that tells what comes next", "el objeto que dice qué viene ahora"),
        Told = new("A thing to touch or look at that goes with a routine.", "Una cosa para tocar o mirar que acompaña a una rutina."),
    };
    public static readonly Term Probe = new("probe", "The first chance of the day under the agreed conditions, without a prompt: it counts for the goal.")
    {
        Family = new("check", "observación"),
        Told = new("A short look at what your child does without help.", "Una mirada breve a lo que su hija o hijo hace sin ayuda."),
    };
    public static readonly Term Opportunity = new("opportunity", "A trial that was presented and counts, and that the learner did not refuse.")
    {
        Family = new("try", "intento"),
        Told = new("One time that your child had the chance.", "Una vez que su hija o hijo tuvo la oportunidad."),
    };
    public static readonly Term Prompt = new("prompt", "Help that the routine's card names, in its agreed order.")
    {
        Family = new("help", "ayuda"),
        Told = new("A word, a sign or a hand that makes it easier.", "Una palabra, una seña o una mano que lo hace más fácil."),
    };
    public static readonly Term Wait = new("wait", "The silent seconds before a prompt; it stands still from the moment the learner has begun.")
    {
        Family = new("waiting time", "tiempo de espera"),
        Told = new("How long everybody stays still so that your child can answer.", "Cuánto tiempo nadie hace nada para que su hija o hijo pueda responder."),
    };
    public static readonly Term WithoutHelp = new("without help", "Responses hoped for that came with no prompt, shown as a count: 3 of 8 opportunities.")
    {
        Family = new("with no help", "sin ayuda"),
        Told = new("Your child did it before anybody helped.", "Lo hizo antes de que nadie ayudara."),
        Never = ["percent independent", "independence level"],
    };
    public static readonly Term TimeToRespond = new("time to respond", "From the end of the cue to the moment the learner begins; where help came first it is not known, only longer than that.")
    {
        Family = new("how long it takes", "cuánto tarda"),
        Told = new("The seconds until your child begins to answer.", "Los segundos hasta que empieza a responder."),
        Never = ["latency", "latencies"],
    };
    public static readonly Term DoneAsWritten = new("done as written", "Steps of the card that were done as it says, of all its steps.") { Never = ["fidelity"] };
    public static readonly Term SecondObserver = new("second observer", "Somebody who scores the same practice without seeing the first one's taps; how far the two agree stands beside the figures.") { Never = ["inter-rater"] };

    // ------------------------------------------------------------ the record
    public static readonly Term Correct = new("correct", "A visit or probe is corrected with a reason; what stood before stays on record.");
    public static readonly Term Amend = new("amend", "A plan is amended from a day on; what held before stays.");
    public static readonly Term Restate = new("restate", "A closed count is restated in another edition, and both stay side by side.");
    public static readonly Term AccessRecord = new("record of access", "Who opened which page of a learner's record, when, and on what ground.")
    {
        Family = new("who has looked at the record", "quién ha consultado el expediente"),
        Told = new("A list that you can ask for.", "Una lista que usted puede pedir."),
        Never = ["audit log", "audit trail"],
    };
    public static readonly Term Summary = new("family summary", "What the team writes for the family, read only once the case manager has published it.")
    {
        Family = new("summary", "resumen"),
        Told = new("A page that the team writes for you: what was learned, and what comes next.", "Una página que el equipo escribe para usted: qué se aprendió y qué sigue."),
    };

    /// <summary>Every term, in the order of the page.</summary>
    public static IReadOnlyList<(string Heading, IReadOnlyList<Term> Terms)> Parts { get; } =
    [
        ("What was promised and given", [Plan, Service, Period, Window, Owed, Given, Due, NotYetGiven, NotOwed, BeyondPlan, MakeUp, BroughtForward, Compensatory, ToCheck, Working]),
        ("Where a service stands", [.. Enum.GetValues<Status>().Select(Of)]),
        ("Visits", [Visit, Session, NotTakenUp, NotOffered, Countersigned, SetAside, Hold, Quiet]),
        ("Teaching", [Routine, ObjectCue, Probe, Opportunity, Prompt, Wait, WithoutHelp, TimeToRespond, DoneAsWritten, SecondObserver]),
        ("The record", [Correct, Amend, Restate, AccessRecord, Summary]),
    ];
}
