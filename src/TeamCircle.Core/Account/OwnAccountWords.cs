using TeamCircle.Core.Family;

namespace TeamCircle.Core.Account;

/// <summary>What a family reads where it joins, signs in and out, and looks after its own account, in both languages; staff read the English.</summary>
public static class OwnAccountWords
{
    // ------------------------------------------------------------ signing in and out
    public static readonly Phrase SignIn = new("Sign in", "Iniciar sesión");
    public static readonly Phrase Demonstration = new(
        "This portal shows invented records. Its accounts have one known passphrase and sign in with it alone; for real records a second step is asked as well.",
        "Este portal muestra datos inventados. Sus cuentas tienen una contraseña conocida y entran solo con ella; para datos reales se pide además un segundo paso.");
    public static readonly Phrase Email = new("E-mail address", "Dirección de correo");
    public static readonly Phrase Password = new("Password", "Contraseña");
    public static readonly Phrase WithPasskey = new("Sign in with a passkey", "Iniciar sesión con una llave de acceso");
    public static readonly Phrase WithProvider = new("Sign in with {0}", "Iniciar sesión con {0}");
    public static readonly Phrase NoWayIn = new(
        "No account yet, or no way in? An administrator of your agency makes you a link.", "¿Todavía no tiene cuenta o no puede entrar? La administración de su agencia le da un enlace.");
    public static readonly Phrase NoPasskeyShown = new("No passkey was shown. Try again, or sign in as you did before.", "No se mostró ninguna llave de acceso. Pruebe otra vez o entre como antes.");
    public static readonly Phrase SignOutEnds = new("This ends your sign-in in this browser at once.", "Esto cierra enseguida su sesión en este navegador.");
    public static readonly Phrase ProviderRefused = new(
        "Your agency's identity provider did not vouch for you, or its answer was not for this portal. Try again.",
        "El servicio de identidad de su agencia no respondió por usted, o su respuesta no era para este portal. Pruebe otra vez.");
    public static readonly Phrase ProviderUnknown = new(
        "Your agency's identity provider knows you, and this portal does not yet. Sign in with your password and link the two under Your account, or ask an administrator for a link to join.",
        "El servicio de identidad de su agencia le conoce, y este portal todavía no. Entre con su contraseña y una los dos en Su cuenta, o pida un enlace a la administración.");
    public static readonly Phrase ProviderEnded = new("That link was used, or has ended. An administrator of your agency makes another.", "Ese enlace ya se usó o ha caducado. La administración de su agencia le da otro.");

    // ------------------------------------------------------------ joining, and a new password
    public static readonly Phrase JoinHeading = new("Join {0}", "Entrar en {0}");
    public static readonly Phrase HasAccount = new(
        "{0} already has an account here. Enter its password to work for {1} too.", "{0} ya tiene una cuenta aquí. Escriba su contraseña para estar también en {1}.");
    public static readonly Phrase MakesAccount = new("This link makes the account of {0}, {1}. It works once.", "Este enlace crea la cuenta de {0}, {1}. Sirve una sola vez.");
    public static readonly Phrase JoinWith = new("Join with {0}", "Entrar con {0}");
    public static readonly Phrase StaffThatWay = new("Whoever works here signs in that way. Families choose a password.", "Quien trabaja aquí entra de esa manera. Las familias eligen una contraseña.");
    public static readonly Phrase AccountExists = new(
        "An account with this e-mail address exists: enter its password here, then link it under Your account.",
        "Ya hay una cuenta con esta dirección de correo: escriba aquí su contraseña y después únala en Su cuenta.");
    public static readonly Phrase ChoosePassword = new("Choose a password", "Elija una contraseña");
    public static readonly Phrase PasswordHint = new(
        "15 characters or more. Four or five words that do not belong together are easy to remember; spaces count.",
        "15 caracteres o más. Cuatro o cinco palabras que no tengan que ver entre sí son fáciles de recordar; los espacios cuentan.");
    public static readonly Phrase Join = new("Join", "Entrar");
    public static readonly Phrase NewPasswordHeading = new("Set a new password", "Elegir una contraseña nueva");
    public static readonly Phrase NewPasswordFor = new("For {0}. This link works once; every sign-in of the account ends.", "Para {0}. Este enlace sirve una sola vez; se cierran todas las sesiones de la cuenta.");
    public static readonly Phrase SetPassword = new("Set the password", "Guardar la contraseña");
    public static readonly Phrase PasswordIsSet = new("Your new password is set. Sign in with it.", "Su contraseña nueva está guardada. Entre con ella.");
    public static readonly Phrase SignOutFirst = new(
        "You are signed in here already. Sign out, then open the link again.", "Ya tiene una sesión abierta aquí. Ciérrela y abra el enlace otra vez.");

    // ------------------------------------------------------------ the account
    public static readonly Phrase Heading = new("Your account", "Su cuenta");
    public static readonly Phrase SecondStep = new("Your second step", "Su segundo paso");
    public static readonly Phrase ProviderLink = new("Your agency's sign-in", "El acceso de su agencia");
    public static readonly Phrase PasswordHeading = new("Change your password", "Cambiar su contraseña");
    public static readonly Phrase EmailHeading = new("Change your e-mail address", "Cambiar su dirección de correo");
    public static readonly Phrase MailsHeading = new("Your mails", "Sus mensajes");
    public static readonly Phrase OtherAgency = new("Work in another agency", "Ir a otra agencia");
    public static readonly Phrase SignedInHeading = new("Where you are signed in", "Dónde tiene la sesión abierta");
    public static readonly Phrase SignedInWhat = new(
        "A sign-in ends by itself after an hour without a request and after twelve hours in all. End one that you do not know, then change your password.",
        "Una sesión se cierra sola después de una hora sin uso y de doce horas en total. Cierre la que no conozca y después cambie su contraseña.");
    public static readonly Phrase SignedInSince = new("Since {0}; last request {1}", "Desde {0}; último uso {1}");
    public static readonly Phrase ThisBrowser = new("this browser", "este navegador");
    public static readonly Phrase End = new("End", "Cerrar");
    public static readonly Phrase EndOf = new(" {0}, since {1}", " {0}, desde {1}");
    public static readonly Phrase EndOthers = new("End all others", "Cerrar todas las demás");
    public static readonly Phrase Ended = new("That sign-in has ended.", "Esa sesión está cerrada.");
    public static readonly Phrase EndedOthers = new("All your other sign-ins have ended.", "Sus demás sesiones están cerradas.");

    // ------------------------------------------------------------ password and address
    public static readonly Phrase PasswordEnds = new("Every other sign-in of yours ends when it is changed.", "Al cambiarla se cierran todas sus demás sesiones.");
    public static readonly Phrase PasswordNow = new("Password you have now", "Contraseña de ahora");
    public static readonly Phrase ChosenPassword = new("New password", "Contraseña nueva");
    public static readonly Phrase Change = new("Change it", "Cambiarla");
    public static readonly Phrase PasswordChanged = new(
        "Your password is changed; every other sign-in of yours has ended.", "Su contraseña está cambiada; se han cerrado sus demás sesiones.");
    public static readonly Phrase EmailWhat = new(
        "You sign in with it, and mails go to it. A link goes to the new address; when it is opened there, every sign-in ends and the old address is told.",
        "Con ella inicia sesión, y a ella llegan los mensajes. A la dirección nueva llega un enlace; al abrirlo se cierran todas las sesiones y se avisa a la dirección de antes.");
    public static readonly Phrase EmailNow = new("Now: {0}", "Ahora: {0}");
    public static readonly Phrase ChosenEmail = new("New address", "Dirección nueva");
    public static readonly Phrase SendLink = new("Send the link", "Enviar el enlace");
    public static readonly Phrase Leave = new("Leave it", "Dejarlo");
    public static readonly Phrase LinkGoes = new(
        "A link goes to {0}, unless somebody signs in with that address already. It works for a day.", "Un enlace va a {0}, salvo que alguien ya use esa dirección. Sirve durante un día.");
    public static readonly Phrase ConfirmHeading = new("Confirm your new address", "Confirme su dirección nueva");
    public static readonly Phrase ConfirmWhat = new(
        "You sign in with {0} from then on. Every sign-in of the account ends, and the old address is told.",
        "Desde entonces inicia sesión con {0}. Se cierran todas las sesiones de la cuenta y se avisa a la dirección de antes.");
    public static readonly Phrase Confirm = new("Confirm it", "Confirmarla");
    public static readonly Phrase Confirmed = new("Your new address is confirmed. Sign in with it.", "Su dirección nueva está confirmada. Entre con ella.");
    public static readonly Phrase OwnPassword = new("Your own password", "Su propia contraseña");
    public static readonly Phrase OwnPasswordHint = new(
        "You typed it more than a quarter of an hour ago. If you have none, sign out and in again.",
        "La escribió hace más de un cuarto de hora. Si no tiene ninguna, cierre la sesión y entre otra vez.");
    public static readonly Phrase OrRecoveryCode = new("Or a recovery code.", "O un código de recuperación.");
    public static readonly Phrase PasskeyFirst = new("With a passkey, show it first, then fill in this form.", "Con una llave de acceso, muéstrela antes y después rellene este formulario.");

    // ------------------------------------------------------------ mails
    public static readonly Phrase MailsWhat = new(
        "They go to {0}. No mail names a learner or says anything about one: each leads here. Links to join and to choose a new password always come.",
        "Llegan a {0}. Ningún mensaje nombra a nadie ni dice nada de nadie: cada uno lleva aquí. Los enlaces para entrar y para elegir una contraseña llegan siempre.");
    public static readonly Phrase NoMails = new("In your role no other mails come.", "A usted no le llegan otros mensajes.");
    public static readonly Phrase WhichMails = new("Which mails", "Qué mensajes");
    public static readonly Phrase NewSummary = new("A new summary is ready", "Hay un nuevo resumen");
    public static readonly Phrase NewSummaryWhat = new("When the team has published something to read.", "Cuando el equipo ha publicado algo para leer.");
    public static readonly Phrase VisitChanged = new("A visit has changed", "Ha cambiado una visita");
    public static readonly Phrase VisitChangedWhat = new(
        "When visits to come are moved or called off; several changes within half an hour are one mail.",
        "Cuando se mueven o se suspenden visitas; varios cambios en media hora llegan en un solo mensaje.");
    public static readonly Phrase MailLanguage = new("Language of the mails", "Idioma de los mensajes");
    public static readonly Phrase QuietFrom = new("No mails from", "Ningún mensaje desde");
    public static readonly Phrase QuietUntil = new("Until", "Hasta");
    public static readonly Phrase QuietHint = new("The same time twice: mails come at any time.", "La misma hora dos veces: llegan a cualquier hora.");
    public static readonly Phrase TimeZone = new("Your time zone", "Su zona horaria");
    public static readonly Phrase Save = new("Save", "Guardar");
    public static readonly Phrase DoNotSave = new("Do not save", "No guardar");
    public static readonly Phrase ChoiceSaved = new("Your choice is saved.", "Su elección está guardada.");
    public static readonly Phrase StopTitle = new("Stop mails", "No recibir mensajes");
    public static readonly Phrase StopAsk = new("Stop these mails?", "¿No recibir más estos mensajes?");
    public static readonly Phrase StopWhat = new("It stops one kind of mail to you: {0}. Nothing else changes.", "Deja de llegarle un tipo de mensaje: {0}. Nada más cambia.");
    public static readonly Phrase StopAct = new("Stop these mails", "No recibir más estos mensajes");
    public static readonly Phrase Stopped = new("These mails have stopped", "Ya no recibe estos mensajes");
    public static readonly Phrase StoppedWhat = new(
        "You get no more mails of this kind: {0}. Under your account you can have them again.", "Ya no le llegan mensajes de este tipo: {0}. En su cuenta puede volver a recibirlos.");

    // ------------------------------------------------------------ what was typed while the sign-in ended
    public static readonly Phrase AgainSignedIn = new("You are signed in again", "Ha entrado otra vez");
    public static readonly Phrase TypedIsKept = new("What you typed before is kept. Nothing is saved yet.", "Lo que escribió antes sigue aquí. Todavía no se ha guardado nada.");
    public static readonly Phrase SaveTyped = new("Save what I typed", "Guardar lo que escribí");
    public static readonly Phrase DropTyped = new("Drop it", "Descartarlo");
    public static readonly Phrase KeptForStep = new("What you typed is kept. Show that it is you to save it.", "Lo que escribió sigue aquí. Demuestre que es usted para guardarlo.");
    public static readonly Phrase StepNeeded = new("A second step is needed", "Hace falta un segundo paso");
    public static readonly Phrase KeptForSetUp = new(
        "What you typed is kept for an hour. Set up an authenticator app first; then you can save it.",
        "Lo que escribió se guarda durante una hora. Prepare antes una aplicación de códigos; después podrá guardarlo.");
    public static readonly Phrase SetItUp = new("Set it up", "Prepararlo");
    public static readonly Phrase Overtaken = new(
        "Somebody else saved a change while you were typing. Nothing is lost: what stands now is shown first, yours is in the form below. Bring the two together and save, or leave it as it stands.",
        "Otra persona guardó un cambio mientras usted escribía. No se ha perdido nada: arriba está lo que vale ahora, y abajo lo suyo. Junte los dos y guarde, o déjelo como está.");

    // ------------------------------------------------------------ about to end
    public static readonly Phrase EndsSoon = new(
        "In about five minutes your sign-in ends, since nothing was opened or saved for a while.", "En unos cinco minutos se cerrará su sesión, porque hace rato que no abre ni guarda nada.");
    public static readonly Phrase Stay = new("Stay signed in", "Seguir con la sesión");
    public static readonly Phrase HasEnded = new(
        "Your sign-in has ended. What you typed still stands here: save it, and sign in when you are asked.",
        "Su sesión se ha cerrado. Lo que escribió sigue aquí: guárdelo e inicie sesión cuando se le pida.");

    // ------------------------------------------------------------ choosing an agency
    public static readonly Phrase AgencyHeading = new("Choose your agency", "Elija su agencia");
    public static readonly Phrase NoAgency = new(
        "No agency has you on its list today. An administrator of your agency can put you back on it.",
        "Hoy ninguna agencia le tiene en su lista. La administración de su agencia puede volver a ponerle.");
    public static readonly Phrase Agencies = new(
        "You work with {0} agencies. What you see and do counts in one of them at a time.", "Usted está en {0} agencias. Lo que ve y hace vale en una de ellas a la vez.");

    // ------------------------------------------------------------ the agency's own sign-in
    public static readonly Phrase ProviderWhat = new(
        "{0} vouches for you here once the two are linked. The link rests on the number that it has for you, never on your e-mail address.",
        "{0} responde aquí por usted cuando los dos están unidos. La unión se basa en el número que tiene para usted, nunca en su dirección de correo.");
    public static readonly Phrase ProviderMust = new(
        "Whoever works for your agency signs in that way. If the two are not linked yet, link them first.", "Quien trabaja para su agencia entra de esa manera. Si los dos todavía no están unidos, únalos antes.");
    public static readonly Phrase ProviderLinked = new("linked", "unida");
    public static readonly Phrase ProviderEnd = new("End the link", "Separarlos");
    public static readonly Phrase ProviderDo = new("Link my account with {0}", "Unir mi cuenta con {0}");
    public static readonly Phrase ProviderLate = new("That took too long, or you are signed in as somebody else. Try again.", "Tardó demasiado, o la sesión es de otra persona. Pruebe otra vez.");
    public static readonly Phrase ProviderHasEnded = new("The link has ended.", "Ya no están unidos.");
}
