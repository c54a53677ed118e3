using TeamCircle.Core.Family;

namespace TeamCircle.Core.Account;

/// <summary>What a family reads where a second step is set up, asked for and lost, in both languages; staff read the English.</summary>
public static class SecondStepWords
{
    // ------------------------------------------------------------ asked for
    public static readonly Phrase Heading = new("Second step", "Segundo paso");
    public static readonly Phrase PasswordWasRight = new(
        "Your password was right. Now show that it is you who typed it.", "Su contraseña es correcta. Ahora demuestre que fue usted quien la escribió.");
    public static readonly Phrase AgainHeading = new("Show again that it is you", "Demuestre de nuevo que es usted");
    public static readonly Phrase AgainFor = new(
        "Then you can change how you sign in, roles and links for a quarter of an hour.", "Después podrá cambiar durante un cuarto de hora cómo inicia sesión.");
    public static readonly Phrase Code = new("The code that your authenticator app shows now", "El código que muestra ahora su aplicación de códigos");
    public static readonly Phrase CodeHint = new(
        "Six digits; each counts once. A recovery code from your printed list does too.", "Seis cifras; cada código sirve una vez. También sirve un código de recuperación de su lista impresa.");
    public static readonly Phrase GoOn = new("Go on", "Continuar");
    public static readonly Phrase UsePasskey = new("Use a passkey", "Usar una llave de acceso");
    public static readonly Phrase Lost = new(
        "Phone or passkey lost? Use a code from your printed list. Without one, an administrator of your agency can remove your second step, and you set up a new one.",
        "¿Ha perdido el teléfono o la llave de acceso? Use un código de su lista impresa. Si no la tiene, la administración de su agencia puede quitar su segundo paso y usted prepara otro.");
    public static readonly Phrase CodeRefused = new(
        "That code is wrong, was used before, or several were wrong: then we look again a quarter of an hour later. Wait for the next code.",
        "Ese código no es correcto, ya se usó, o hubo varios incorrectos: entonces hay que esperar un cuarto de hora. Espere al siguiente código.");
    public static readonly Phrase PasskeyRefused = new("That passkey is none of yours here. Try again, or type a code.", "Esa llave de acceso no es suya aquí. Pruebe otra vez o escriba un código.");

    // ------------------------------------------------------------ set up
    public static readonly Phrase SetUpHeading = new("Set up your second step", "Prepare su segundo paso");
    public static readonly Phrase SetUpWhy = new(
        "The records here are about children. Sign in with your password and something else: a passkey, or codes of an app on the phone. Choose one; you can add the other later.",
        "Lo que hay aquí trata de niños. Inicie sesión con su contraseña y algo más: una llave de acceso o los códigos de una aplicación del teléfono. Elija uno; podrá añadir el otro después.");
    public static readonly Phrase OwnHeading = new("Your second step", "Su segundo paso");
    public static readonly Phrase OwnWhat = new("What you show besides your password. A passkey alone is both steps.", "Lo que muestra además de su contraseña. Una llave de acceso sola vale por los dos pasos.");
    public static readonly Phrase App = new("Authenticator app", "Aplicación de códigos");
    public static readonly Phrase AppWhat = new("Shows a new code of six digits every half minute, also without a network.", "Muestra cada medio minuto un código nuevo de seis cifras, también sin conexión.");
    public static readonly Phrase SetUpApp = new("Set up an app", "Preparar una aplicación");
    public static readonly Phrase ReplaceApp = new("Set up another app in its place", "Preparar otra aplicación en su lugar");
    public static readonly Phrase RemoveApp = new("Remove the app", "Quitar la aplicación");
    public static readonly Phrase RemovedApp = new(
        "Its codes let nobody in from then on. It can't be taken back: set an app up anew if you want one again.",
        "Desde entonces sus códigos no dejan entrar a nadie. No se puede deshacer: prepare otra vez una aplicación si vuelve a quererla.");
    public static readonly Phrase RemovedPasskey = new(
        "It lets nobody in from then on. It can't be taken back: on the same device you can make a new one.",
        "Desde entonces no deja entrar a nadie. No se puede deshacer: en el mismo aparato puede crear otra nueva.");
    public static readonly Phrase Passkeys = new("Passkeys", "Llaves de acceso");
    public static readonly Phrase PasskeysWhat = new(
        "Lie on a phone, a computer or a key of their own, and ask for your finger, face or PIN. Nobody can guess or copy one from you.",
        "Están en un teléfono, un ordenador o una llave propia, y piden su huella, su cara o su PIN. Nadie puede adivinarlas ni copiárselas.");
    public static readonly Phrase PasskeyName = new("Name of the new passkey", "Nombre de la nueva llave de acceso");
    public static readonly Phrase PasskeyNameHint = new("The device on which it lies: my phone, the office computer.", "El aparato en el que está: mi teléfono, el ordenador de casa.");
    public static readonly Phrase AddPasskey = new("Add a passkey", "Añadir una llave de acceso");
    public static readonly Phrase NoPasskeys = new("This browser can make no passkeys.", "Este navegador no puede crear llaves de acceso.");
    public static readonly Phrase PasskeyNotMade = new("No passkey was made. Try again, or use an authenticator app.", "No se creó ninguna llave de acceso. Pruebe otra vez o use una aplicación de códigos.");
    public static readonly Phrase Since = new("Since {0}", "Desde el {0}");
    public static readonly Phrase Remove = new("Remove", "Quitar");
    public static readonly Phrase SetUpOn = new("Set up on {0}.", "Preparada el {0}.");

    // ------------------------------------------------------------ the app
    public static readonly Phrase AppHeading = new("Set up an authenticator app", "Preparar una aplicación de códigos");
    public static readonly Phrase AnyApp = new(
        "Any app for codes that change every half minute will do. Ask your agency which one it recommends.",
        "Sirve cualquier aplicación de códigos que cambian cada medio minuto. Pregunte a su agencia cuál recomienda.");
    public static readonly Phrase PointCamera = new(
        "Open the app on your phone, add an account, and point the camera at this picture.", "Abra la aplicación en el teléfono, añada una cuenta y apunte con la cámara a esta imagen.");
    public static readonly Phrase Picture = new("The key as a picture for the phone's camera", "La clave como imagen para la cámara del teléfono");
    public static readonly Phrase NoCamera = new("No camera? Type this key into the app:", "¿Sin cámara? Escriba esta clave en la aplicación:");
    public static readonly Phrase TypeCode = new("Type the code that the app shows now", "Escriba el código que la aplicación muestra ahora");
    public static readonly Phrase SixDigits = new("Six digits.", "Seis cifras.");
    public static readonly Phrase Finish = new("Finish", "Terminar");
    public static readonly Phrase Leave = new("Leave it", "Dejarlo");
    public static readonly Phrase AppDone = new("Your authenticator app is set up", "Su aplicación de códigos está preparada");

    // ------------------------------------------------------------ recovery codes
    public static readonly Phrase Codes = new("Recovery codes", "Códigos de recuperación");
    public static readonly Phrase CodesFor = new("For the day on which phone and passkeys are lost.", "Para el día en que se pierdan el teléfono y las llaves de acceso.");
    public static readonly Phrase CodesShown = new("Your recovery codes, shown only now", "Sus códigos de recuperación, que solo se muestran ahora");
    public static readonly Phrase CodesKeep = new(
        "Each opens the second step once, on the day on which your phone or passkey is lost. Print them or write them down, and keep them away from your phone.",
        "Cada uno abre el segundo paso una vez, el día en que pierda el teléfono o la llave de acceso. Imprímalos o escríbalos, y guárdelos lejos del teléfono.");
    public static readonly Phrase CodesMadeAnew = new("New ones take the place of all earlier ones.", "Los nuevos reemplazan a todos los anteriores.");
    public static readonly Phrase CodesLeft = new("{0} not used.", "{0} sin usar.");
    public static readonly Phrase MakeCodes = new("Make ten new ones", "Crear diez nuevos");
    public static readonly Phrase MakeCodesLink = new("Make new ones", "Crear otros nuevos");
    public static readonly Phrase HaveKept = new("I have kept them", "Los he guardado");
}
