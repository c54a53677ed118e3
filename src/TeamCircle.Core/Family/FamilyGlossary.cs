using TeamCircle.Core.Guide;

namespace TeamCircle.Core.Family;

/// <summary>
/// The one glossary of what families read: every word of the frame and every sentence that is made from facts. Spanish speaks to
/// the reader as usted, and needs no word that would have to know whether the child is a girl or a boy; English needs none either.
/// </summary>
/// <remarks>Translated by us, not by a court or medical interpreter: an agency lets a second reader look at it.</remarks>
public static class FamilyGlossary
{
    // ------------------------------------------------------------ frame of the page
    public static readonly Phrase OwnName = new("English", "Español");
    public static readonly Phrase ChooseLanguage = new("Language", "Idioma");
    public static readonly Phrase Title = new("{0}: who comes, and what was given", "{0}: quién viene y qué se dio");
    public static readonly Phrase Back = new("Family page", "Página de la familia");
    public static readonly Phrase WhoComes = new("Who comes", "Quién viene");
    public static readonly Phrase LastTwoWeeks = new("The last two weeks", "Las últimas dos semanas");
    public static readonly Phrase MinutesHeading = new("Where we are with the minutes", "Cómo vamos con los minutos");
    public static readonly Phrase NoMinutesYet = new("There are no minutes to show yet.", "Todavía no hay minutos que mostrar.");
    public static readonly Phrase ThisPart = new("This part of the school year: {0}.", "Esta parte del año escolar: {0}.");
    public static readonly Phrase Reports = new("How {0} is doing", "Cómo le va a {0}");
    public static readonly Phrase Report = new("Progress report, {0}", "Informe de progreso, {0}");
    public static readonly Phrase Team = new("The team", "El equipo");
    public static readonly Phrase WhoToAsk = new("Who to ask", "A quién preguntar");
    public static readonly Phrase NoVisitsToCome = new("No visits are planned in the next two weeks.", "No hay visitas previstas en las próximas dos semanas.");
    public static readonly Phrase NoVisitsBefore = new("There were no visits in the last two weeks.", "No hubo visitas en las últimas dos semanas.");
    public static readonly Phrase NobodyYet = new("Nobody is on the team yet.", "Todavía no hay nadie en el equipo.");
    public static readonly Phrase NobodyComes = new("Nobody comes on {0}: {1}.", "El {0} no viene nadie: {1}.");
    public static readonly Phrase Ask = new(
        "Ask {0} about anything on this page, or to see the record of who has looked at it.",
        "Pregunte a {0} lo que quiera sobre esta página, o pida ver quién la ha consultado.");
    public static readonly Phrase AskNobody = new(
        "Nobody is named as case manager at the moment: ask anybody on the team.",
        "En este momento nadie coordina el caso: pregunte a cualquier persona del equipo.");
    public static readonly Phrase CaseManager = new("case manager: the person to ask", "coordina el caso: la persona a quien preguntar");
    public static readonly Phrase OnTheTeam = new("on the team", "en el equipo");
    public static readonly Phrase ReadAloud = new("Read aloud", "Leer en voz alta");
    public static readonly Phrase Stop = new("Stop", "Parar");
    public static readonly Phrase SkipToPage = new("Skip to the page", "Ir al contenido");
    public static readonly Phrase SignOut = new("Sign out", "Cerrar sesión");
    public static readonly Phrase Optional = new("(optional)", "(si quiere)");
    public static readonly Phrase HelpLink = new("Help", "Ayuda");
    public static readonly Phrase HelpWith = new("Help: {0}", "Ayuda: {0}");
    public static readonly Phrase OnThisPage = new("On this page", "En esta página");
    public static readonly Phrase WordsHeading = new("Words that you read here", "Palabras que lee aquí");
    public static readonly Phrase Foot = new(
        "TeamCircle records and computes; it does not prescribe. Positioning, physical assistance, health plans and switch mounting belong to the licensed people on the team and to local rules. When in doubt: stop, and ask.",
        "TeamCircle anota y calcula; no receta nada. Las posturas, la ayuda física, los planes de salud y el montaje de los pulsadores son cosa de los profesionales con licencia del equipo y de las normas locales. Si tiene dudas: pare y pregunte.");

    // ------------------------------------------------------------ in place of any page, while the portal can't reach its database
    public static readonly Phrase AwayForReading = new("This page can't be shown now", "Ahora no se puede mostrar esta página");
    public static readonly Phrase AwayTryAgain = new(
        "The portal can't reach its records. Nothing that was saved is lost. Try again in a minute.",
        "El portal no puede llegar a sus datos. No se ha perdido nada de lo guardado. Inténtelo de nuevo en un minuto.");
    public static readonly Phrase AwayForSaving = new("Not saved yet", "Todavía no se ha guardado");
    public static readonly Phrase AwaySendAgain = new(
        "The portal can't reach its records. Go back: what you typed is still there. Wait a minute and send it again; it is saved once, however often you send it.",
        "El portal no puede llegar a sus datos. Vuelva atrás: lo que escribió sigue ahí. Espere un minuto y envíelo otra vez; se guarda una sola vez, aunque lo envíe varias veces.");

    // ------------------------------------------------------------ in place of the page, where a seat is paused
    public static readonly Phrase PausedHeading = new("Why your child's page is not here", "Por qué no está aquí la página");
    public static readonly Phrase Paused = new(
        "Your child has come of age: the rights over the record now belong to the learner. So the page pauses for you until it is decided what you may see. Nothing has been deleted.",
        "Con la mayoría de edad, los derechos sobre el expediente pasan a la misma persona que recibe los servicios. Por eso la página se detiene para usted hasta que se decida qué puede ver. No se ha borrado nada.");
    public static readonly Phrase PausedAsk = new(
        "Ask the case manager at {0}, who decides it with the learner and with you.",
        "Pregunte en {0} a quien coordina el caso, que lo decide con la persona misma y con usted.");

    // ------------------------------------------------------------ the summary
    public static readonly Phrase SummaryTitle = new("What {0} has learned", "Lo que {0} ha aprendido");
    public static readonly Phrase SummaryLink = new("{0}: read the summary", "{0}: leer el resumen");
    public static readonly Phrase Summaries = new("Summaries", "Resúmenes");
    public static readonly Phrase WrittenBy = new("Written for you by {0} on {1}.", "Escrito para usted por {0} el {1}.");
    public static readonly Phrase Corrected = new("This takes the place of what you read before: {0}", "Esto reemplaza lo que usted leyó antes: {0}");
    public static readonly Phrase Visits = new("Visits", "Las visitas");
    public static readonly Phrase Practised = new("What we practised", "Qué practicamos");
    public static readonly Phrase Goals = new("Goals", "Las metas");
    public static readonly Phrase Hers = new("A moment of {0}'s own", "Un momento muy de {0}");
    public static readonly Phrase SeenBy = new("Seen by {0}.", "Lo vio {0}.");
    public static readonly Phrase Next = new("What comes next", "Qué sigue");
    public static readonly Phrase Home = new("At home", "En casa");
    public static readonly Phrase NoNeed = new(
        "You do not have to do any of this. A day without it is a good day too.",
        "Nada de esto es una obligación. Un día sin hacerlo también es un buen día.");
    public static readonly Phrase Rights = new("To see the whole record, or to disagree", "Para ver el expediente completo o decir que no está de acuerdo");
    public static readonly Phrase RightToSee = new(
        "You can ask to see all that is written about {0}, and for help to read it. We answer as soon as we can, and in 45 days at the most.",
        "Usted puede pedir ver todo lo que está escrito sobre {0}, y ayuda para leerlo. Respondemos lo antes posible, y en 45 días como máximo.");
    public static readonly Phrase RightToDisagree = new(
        "Is something wrong? Ask us to change it. If we say no, you can ask for a hearing, and your own words can stay beside it.",
        "¿Hay algo que no es correcto? Pídanos que lo cambiemos. Si decimos que no, puede pedir una audiencia, y sus propias palabras pueden quedar al lado.");
    public static readonly Phrase AsWritten = new("As it was written, in Spanish:", "Tal como se escribió, en inglés:");
    public static readonly Phrase Higher = new("Higher in the picture is better.", "Más arriba en el dibujo es mejor.");
    public static readonly Phrase AsTable = new("The picture as a table", "El dibujo en una tabla");
    public static readonly Phrase Day = new("Day", "Día");
    public static readonly Phrase Check = Begun(Glossary.Probe);

    // ------------------------------------------------------------ a progress report
    public static readonly Phrase SharedOn = new("Shared with you on {0}.", "Compartido con usted el {0}.");
    public static readonly Phrase Learned = new("{0} has learned this.", "{0} ya lo ha aprendido.");
    public static readonly Phrase OnTheWay = new("{0} is on the way to learn this in time.", "{0} va en camino de aprenderlo a tiempo.");
    public static readonly Phrase NotFastEnough = new(
        "{0} is learning, but not fast enough yet to get there in time. The team looks at how it is taught.",
        "{0} está aprendiendo, pero todavía no lo bastante rápido para llegar a tiempo. El equipo revisa cómo se enseña.");
    public static readonly Phrase StillDoes = new("{0} still does this.", "{0} lo sigue haciendo.");
    public static readonly Phrase NotWorkedOn = new("This was not worked on: {0}", "En esto no se trabajó: {0}");
    public static readonly Phrase LikeToTalk = new("The team would like to talk with you about this.", "El equipo quiere hablar de esto con usted.");
    public static readonly Phrase LastChecks = new("Last checks: {0}.", "Últimas observaciones: {0}.");
    public static readonly Phrase CheckOn = new("{0} ({1})", "{0} ({1})");
    public static readonly Phrase WhoWrote = new("Who wrote this", "Quién escribió esto");
    public static readonly Phrase SignedOn = new("Signed on {0}", "Con firma del {0}");

    public static readonly Phrase ParentsStatement = new("The parent's statement", "Lo que declara la familia");

    // ------------------------------------------------------------ telling the team
    public static readonly Phrase Tell = new("Tell the team", "Avisar al equipo");
    public static readonly Phrase TellAbout = new("What is it about?", "¿De qué se trata?");
    public static readonly Phrase TellWords = new("In your own words", "Con sus propias palabras");
    public static readonly Phrase TellVisit = new("Which visit?", "¿Qué visita?");
    public static readonly Phrase TellNoVisit = new("No visit", "Ninguna visita");
    public static readonly Phrase TellHint = new(
        "The team reads it and answers you here. It changes nothing that is written. In an emergency call 911.",
        "El equipo lo lee y le responde aquí. No cambia nada de lo escrito. En una emergencia llame al 911.");
    public static readonly Phrase TellSend = new("Send", "Enviar");
    public static readonly Phrase TellDone = new("Sent. The team answers you here.", "Enviado. El equipo le responde aquí.");
    public static readonly Phrase Told = new("What you told the team", "Lo que usted avisó al equipo");
    public static readonly Phrase NotAnswered = new("Not answered yet.", "Todavía sin respuesta.");
    public static readonly Phrase Answered = new("{0}, on {1}: {2}", "{0}, el {1}: {2}");
    public static readonly Phrase NotSaved = new("Not saved yet. What you typed is still here.", "Todavía no se guardó. Lo que escribió sigue aquí.");
    public static readonly Phrase KindAway = new("We will be away", "No estaremos");
    public static readonly Phrase KindChanged = new("Something has changed", "Algo ha cambiado");
    public static readonly Phrase KindNotAsRemembered = new("A visit was not how I remember it", "Una visita no fue como la recuerdo");
    public static readonly Phrase KindSignal = new("A signal that {0} gives", "Una señal que da {0}");
    public static readonly Phrase KindForMeeting = new("Something for the next meeting", "Algo para la próxima reunión");
    public static readonly Phrase KindOther = new("Something else", "Otra cosa");
    public static readonly Phrase NeedKind = new("Choose what it is about.", "Elija de qué se trata.");
    public static readonly Phrase NeedVisit = new("Choose the visit.", "Elija la visita.");
    public static readonly Phrase NeedWords = new("Write it in a few words.", "Escríbalo en pocas palabras.");

    // ------------------------------------------------------------ practising at home, with one tap
    public static readonly Phrase HomeTaps = new("How was it at home?", "¿Cómo fue en casa?");
    public static readonly Phrase HomeTapsHint = new(
        "One tap, if you like. Nobody counts it, and a day without it is a good day too.", "Un toque, si quiere. Nadie lleva la cuenta, y un día sin hacerlo también es un buen día.");
    public static readonly Phrase HomeTapsOff = new("You cannot tap here at the moment. The team likes to hear it from you when you meet.", "En este momento no puede tocar aquí. Cuéntelo al equipo cuando se vean.");
    public static readonly Phrase HomeTapsNone = new("Nothing is agreed for home at the moment.", "En este momento no hay nada acordado para casa.");
    public static readonly Phrase HomeDone = new("We did it", "Lo hicimos");
    public static readonly Phrase HomeNotUpToIt = new("Not up to it", "No se pudo");
    public static readonly Phrase HomeSkipped = new("Skipped", "Lo dejamos");
    public static readonly Phrase HomeUndo = new("Undo", "Deshacer");
    public static readonly Phrase HomeUndoOf = new(": {0}, {1}", ": {0}, {1}");
    public static readonly Phrase HomeSaid = new("What you tapped in the last two weeks", "Lo que usted tocó en las últimas dos semanas");
    public static readonly Phrase HomeSaved = new("Saved: {0}, {1}.", "Guardado: {0}, {1}.");
    public static readonly Phrase HomeUndone = new("Taken back.", "Se borró.");

    // ------------------------------------------------------------ services, as they stand in a sentence
    public static readonly Phrase Vision = new("vision teaching", "enseñanza visual");
    public static readonly Phrase OccupationalTherapy = new("occupational therapy", "terapia ocupacional");
    public static readonly Phrase PhysicalTherapy = new("physical therapy", "terapia física");
    public static readonly Phrase AssistiveTechnology = new("assistive technology", "tecnología de apoyo");
    public static readonly Phrase SpecialEducation = new("special education", "educación especial");
    public static readonly Phrase ParentCounselingAndTraining = new("parent counseling and training", "orientación y capacitación de la familia");
    public static readonly Phrase OrientationAndMobility = new("orientation and mobility", "orientación y movilidad");
    public static readonly Phrase SpeechLanguage = new("speech and language therapy", "terapia del habla y del lenguaje");
    public static readonly Phrase TheService = new("{0}", "la {0}");
    public static readonly Phrase Evaluation = new("an evaluation", "una evaluación");
    public static readonly Phrase PlanMeeting = new("a meeting about the plan", "una reunión sobre el plan");
    public static readonly Phrase Equipment = new("equipment and fitting", "una visita para aparatos y ajustes");

    // People are named by what they do: in Spanish their profession would need to know more about them.
    public static readonly Phrase VisionTeacher = new("teacher of students with visual impairments", "enseñanza visual");
    public static readonly Phrase OccupationalTherapist = new("occupational therapist", "terapia ocupacional");
    public static readonly Phrase PhysicalTherapist = new("physical therapist", "terapia física");
    public static readonly Phrase TechnologySpecialist = new("assistive-technology specialist", "tecnología de apoyo");
    public static readonly Phrase SpecialTeacher = new("special education teacher", "educación especial");
    public static readonly Phrase ParentTrainer = new("parent trainer", "capacitación de la familia");
    public static readonly Phrase MobilitySpecialist = new("orientation and mobility specialist", "orientación y movilidad");
    public static readonly Phrase SpeechTherapist = new("speech-language therapist", "terapia del habla y del lenguaje");

    // ------------------------------------------------------------ a visit
    public static readonly Phrase ComesHome = new("{0} comes for {1}{2}.", "{0} viene para {1}{2}.");
    public static readonly Phrase AtSchool = new("{0} gives {1} at school{2}.", "En la escuela, con {0}: {1}{2}.");
    public static readonly Phrase AwayFromHome = new("{0} gives {1} away from home{2}.", "Fuera de casa, con {0}: {1}{2}.");
    public static readonly Phrase ByPhone = new("{0} meets you by phone or screen for {1}{2}.", "{0} habla con usted por teléfono o por video para {1}{2}.");
    public static readonly Phrase ExtraToCome = new($"; an {Glossary.MakeUp.Family!.English}", $"; es una {Glossary.MakeUp.Family.Spanish}");
    public static readonly Phrase ALittleLater = new("; a little later, about {0}", "; un poco más tarde, hora aproximada: {0}");
    public static readonly Phrase DoesNotCome = new("{0} does not come{1}.", "{0} no viene{1}.");
    public static readonly Phrase DidNotCome = new("{0} did not come{1}.", "{0} no vino{1}.");
    public static readonly Phrase Gave = new("{0} gave {1} of {2}{3}.", "{0} dio {1} de {2}{3}.");
    public static readonly Phrase CountsOnceSigned = new(
        "{0} came for {1}. The minutes count once a colleague has signed for them.", "{0} vino para {1}. Los minutos cuentan cuando los confirme un colega.");
    public static readonly Phrase CountsNoMinutes = new("{0} came for {1}. The minutes do not count for the plan.", "{0} vino para {1}. Los minutos no cuentan para el plan.");
    public static readonly Phrase ExtraGiven = new($", an {Glossary.MakeUp.Family.English}", $", en una {Glossary.MakeUp.Family.Spanish}");
    public static readonly Phrase CutShort = new("; it was cut short{0}", "; terminó antes de lo previsto{0}");
    public static readonly Phrase WasThere = new("{0} was there for {1}, but it did not take place{2}.", "{0} estuvo para {1}, pero no se pudo hacer{2}.");
    public static readonly Phrase NotOffered = new("{0} with {1} did not take place{2}.", "{0} con {1} no tuvo lugar{2}.");
    public static readonly Phrase NotWrittenDown = new(
        "{0} was to give {1}. What became of it is not written down yet.", "Con {0} estaba prevista {1}. Todavía no está anotado qué pasó.");
    public static readonly Phrase Because = new(": {0}", ": {0}");
    public static readonly Phrase OnDay = new("{0}: {1}", "{0}: {1}");
    public static readonly Phrase GaveOnDays = new("{0} gave {1} of {2} in {3}: {4}.", "{0} dio {1} de {2} en {3}: {4}.");

    // ------------------------------------------------------------ why not
    public static readonly Phrase Ill = new("{0} was ill", "{0} no se sentía bien");
    public static readonly Phrase InHospital = new("{0} was in hospital", "{0} estaba en el hospital");
    public static readonly Phrase MedicalAppointment = new("{0} had a medical appointment", "{0} tenía una cita médica");
    public static readonly Phrase Asleep = new("{0} was asleep or not awake enough", "{0} dormía o tenía demasiado sueño");
    public static readonly Phrase NobodyHome = new("nobody was at home", "no había nadie en casa");
    public static readonly Phrase NoAdultHome = new("no adult was at home", "no había ninguna persona adulta en casa");
    public static readonly Phrase IllAtHome = new("somebody at home was ill", "alguien en casa no se sentía bien");
    public static readonly Phrase FamilyAsked = new("changed at the family's request", "se cambió porque la familia lo pidió");
    public static readonly Phrase FamilyAway = new("the family was away", "la familia estaba fuera");
    public static readonly Phrase CouldNotSend = new("we could not send anybody", "no pudimos enviar a nadie");
    public static readonly Phrase EquipmentOut = new("equipment was out of order", "un aparato no funcionaba");
    public static readonly Phrase NoInterpreter = new("no interpreter could come", "no hubo quien interpretara");
    public static readonly Phrase Weather = new("weather or an emergency", "mal tiempo o una emergencia");
    public static readonly Phrase NoSchool = new("there was no school that day", "ese día no hubo clases");
    public static readonly Phrase NotSafe = new("it was not safe to come in", "no era seguro entrar");
    public static readonly Phrase OtherReason = new("another reason", "otro motivo");
    public static readonly Phrase NoReason = new("no reason was written down", "no se anotó ningún motivo");

    // ------------------------------------------------------------ minutes
    public static readonly Phrase OneMinute = new("{0} minute", "{0} minuto");
    public static readonly Phrase ManyMinutes = new("{0} minutes", "{0} minutos");
    public static readonly Phrase OneVisit = new("{0} visit", "{0} visita");
    public static readonly Phrase ManyVisits = new("{0} visits", "{0} visitas");
    public static readonly Phrase CannotCount = new("The plan names no number of minutes that can be counted.", "El plan no indica un número de minutos que se pueda contar.");
    public static readonly Phrase WholeYear = new(
        "{0} of the {1} promised for the whole plan year were given so far.", "Hasta ahora se dieron {0} de los {1} prometidos para todo el año del plan.");
    public static readonly Phrase NoneDue = new("No minutes are due in this part of the school year.", "En esta parte del año escolar no hay minutos que dar.");
    public static readonly Phrase NothingMore = new("Nothing more is due in this part of the school year.", "En esta parte del año escolar no queda nada por dar.");
    public static readonly Phrase NothingYet = new(
        "Nothing is due yet; {0} are promised in this part of the school year.", "Todavía no tocaba dar nada; para esta parte del año escolar están prometidos {0}.");
    public static readonly Phrase AllGiven = new("All {0} due so far were given.", "Se dieron todos los {0} que tocaban hasta ahora.");
    public static readonly Phrase NotGiven = new(
        "{0} of the {1} due so far were given; {2} were not given.", "Se dieron {0} de los {1} que tocaban hasta ahora; no se dieron {2}.");
    public static readonly Phrase NotYetGiven = new(
        "{0} of the {1} due so far were given; {2} not yet given; plan: {3}.", "Se dieron {0} de los {1} que tocaban hasta ahora; faltan {2} por dar; plan: {3}.");
    public static readonly Phrase PlanHasDates = new("extra visits to catch up have their dates", "las visitas adicionales para recuperarlos ya tienen fecha");
    public static readonly Phrase PlanWithYou = new(
        "the time left is too short, so the team decides with you how to go on", "queda muy poco tiempo, así que el equipo decide con usted cómo seguir");
    public static readonly Phrase PlanNoDates = new("the extra visits to catch up have no dates yet", "las visitas adicionales para recuperarlos todavía no tienen fecha");
    public static readonly Phrase NeedNotBeMadeUp = new(
        "Of what was not given around {0}, the team decided on {1} that {2} need not be made up; {3}.",
        "De lo que no se dio alrededor del {0}, el equipo decidió el {1} que no hace falta recuperar {2}; {3}.");
    public static readonly Phrase ToldOn = new("you were told on {0}", "se le informó a usted el {0}");
    public static readonly Phrase NotToldOn = new("we have not written down when you were told", "no anotamos cuándo se le informó a usted");

    // ------------------------------------------------------------ goals, practice, what comes
    public static readonly Phrase LastCheck = new("At the last check, on {0}: {1}.", "En la última observación, el {0}: {1}.");
    public static readonly Phrase NoCheck = new("There was no check in this time.", "En este tiempo no hubo ninguna observación.");
    public static readonly Phrase OnOwn = new($"{{0}} {Glossary.WithoutHelp.Family!.English}, {{1}} of {{2}} tries", $"{{0}} {Glossary.WithoutHelp.Family.Spanish}, {{1}} de {{2}} intentos");
    public static readonly Phrase OnOwnShare = new($"{{0}} {Glossary.WithoutHelp.Family.English}, {{1}} of each 100 tries", $"{{0}} {Glossary.WithoutHelp.Family.Spanish}, {{1}} de cada 100 intentos");
    public static readonly Phrase OfTries = new("{0} of {1} tries", "{0} de {1} intentos");
    public static readonly Phrase Times = new("{0} times", "{0} veces");
    public static readonly Phrase Help = new("help given about {0} times each try", "ayuda, unas {0} veces en cada intento");
    public static readonly Phrase Takes = new("{0} takes about {1} seconds", "{0} tarda unos {1} segundos");
    public static readonly Phrase Lasts = new("about {0} seconds long", "unos {0} segundos seguidos");
    public static readonly Phrase PerMinute = new("{0} times a minute", "{0} veces por minuto");
    public static readonly Phrase OnScale = new("{0} on the team's own scale", "{0} en la escala del equipo");
    public static readonly Phrase PractisedIn = new("{0}, in {1}.", "{0}, en {1}.");
    public static readonly Phrase NextVisit = new("{0}: {1} comes for {2}.", "{0}: viene {1} para {2}.");
    public static readonly Phrase AtHomeOn = new("{0}: on {1}.", "{0}: {1}.");
    public static readonly Phrase AtHomeWith = new("{0}: on {1}, with {2}.", "{0}: {1}, con {2}.");
    public static readonly Phrase BeginsWith = new("It begins with {0}.", "Empieza con {0}.");

    // ------------------------------------------------------------ letter before something is destroyed
    public static readonly Phrase NoLongerNeeded = new("Notes about {0} that we no longer need", "Notas sobre {0} que ya no necesitamos");
    public static readonly Phrase WeWillDestroy = new(
        "We no longer need these parts of what is written about {0}. We plan to destroy them:",
        "Ya no necesitamos estas partes de lo que está escrito sobre {0}. Pensamos destruirlas:");
    public static readonly Phrase DestroyPart = new("{0}, up to {1}. Not before {2}.", "{0}, hasta el {1}. No antes del {2}.");
    public static readonly Phrase DestroyPartUntold = new("{0}, up to {1}. Not before {2} days after you get this letter.", "{0}, hasta el {1}. No antes de {2} días después de recibir esta carta.");
    public static readonly Phrase CopyFirst = new(
        "You can ask us for a copy first. You may need these notes later, for example for a benefit.",
        "Puede pedirnos antes una copia. Quizás necesite estas notas más tarde, por ejemplo para pedir una ayuda.");
    public static readonly Phrase StaysForever = new(
        "The name, the days of the visits and the minutes stay with us.",
        "El nombre, los días de las visitas y los minutos se quedan con nosotros.");
    public static readonly Phrase TellUsToKeep = new("If you want us to keep them, tell us.", "Si quiere que las guardemos, díganoslo.");
    public static readonly Phrase NothingPlanned = new("We do not plan to destroy anything.", "No pensamos destruir nada.");

    /// <summary>In the order of the parts.</summary>
    public static readonly IReadOnlyList<Phrase> PartsOfRecord =
    [
        new("Notes of visits", "Notas de las visitas"), new("What was practised, try by try", "Lo que se practicó, intento por intento"),
        new("Short checks of the goals", "Comprobaciones breves de las metas"), new("Progress reports", "Informes de progreso"), new("Pictures", "Fotos"),
        new("Summaries, and what you told us", "Resúmenes, y lo que usted nos contó"),
    ];

    // ------------------------------------------------------------ days
    public static readonly Phrase And = new("{0} and {1}", "{0} y {1}");
    public static readonly Phrase Today = new("today", "hoy");
    public static readonly Phrase Tomorrow = new("tomorrow", "mañana");
    public static readonly Phrase Yesterday = new("yesterday", "ayer");
    public static readonly Phrase DayOfMonth = new("{0} {1}", "{0} de {1}");
    public static readonly Phrase DayAndYear = new("{0} {1}", "{0} de {1}");
    public static readonly Phrase FromTo = new("{0} to {1}", "del {0} al {1}");
    public static readonly Phrase Morning = new("{0} am", "{0} a. m.");
    public static readonly Phrase Afternoon = new("{0} pm", "{0} p. m.");

    public static readonly IReadOnlyList<Phrase> Months =
    [
        new("January", "enero"), new("February", "febrero"), new("March", "marzo"), new("April", "abril"), new("May", "mayo"), new("June", "junio"),
        new("July", "julio"), new("August", "agosto"), new("September", "septiembre"), new("October", "octubre"), new("November", "noviembre"),
        new("December", "diciembre"),
    ];

    /// <summary>Monday first.</summary>
    public static readonly IReadOnlyList<Phrase> Weekdays =
    [
        new("Monday", "lunes"), new("Tuesday", "martes"), new("Wednesday", "miércoles"), new("Thursday", "jueves"), new("Friday", "viernes"),
        new("Saturday", "sábado"), new("Sunday", "domingo"),
    ];

    /// <summary>Said of a habit: on Mondays.</summary>
    public static readonly IReadOnlyList<Phrase> EachWeekday =
    [
        new("Mondays", "los lunes"), new("Tuesdays", "los martes"), new("Wednesdays", "los miércoles"), new("Thursdays", "los jueves"), new("Fridays", "los viernes"),
        new("Saturdays", "los sábados"), new("Sundays", "los domingos"),
    ];

    private static Phrase Begun(Term term) => new(FamilyDates.Begin(term.Family!.English), FamilyDates.Begin(term.Family.Spanish));
}
