using System.Text.RegularExpressions;
using TeamCircle.Core.Family;

namespace TeamCircle.Core.Account;

/// <summary>What a family reads in place of a page, and the Spanish of each problem that a form of its own can have.</summary>
public static class ProblemWords
{
    // ------------------------------------------------------------ in place of a page
    public static readonly Phrase Ended = new("Your sign-in has ended", "Su sesión ha terminado");
    public static readonly Phrase EndedDo = new("What you typed is kept for an hour. Sign in again to save it.", "Lo que escribió se guarda durante una hora. Entre otra vez para guardarlo.");
    public static readonly Phrase Missing = new("There is no such page", "Esa página no existe");
    public static readonly Phrase MissingDo = new(
        "The address may be mistyped, or it is a page that you have no part in.", "Quizá la dirección está mal escrita, o es una página que no le corresponde.");
    public static readonly Phrase Expired = new("This form has expired", "Este formulario ha caducado");
    public static readonly Phrase ExpiredDo = new(
        "Go back, load the page again and send it once more. What you typed is still in the form when you go back.",
        "Vuelva atrás, cargue la página de nuevo y envíelo otra vez. Lo que escribió sigue en el formulario al volver atrás.");
    public static readonly Phrase TooLarge = new("This is too large", "Es demasiado grande");
    public static readonly Phrase TooLargeDo = new(
        "What was sent is too large to be taken, so nothing was saved. Go back and send it in parts.", "Lo que se envió es demasiado grande, así que no se guardó nada. Vuelva atrás y envíelo por partes.");
    public static readonly Phrase TooMany = new("Too many requests from you", "Demasiadas peticiones suyas");
    public static readonly Phrase TooManyDo = new(
        "Wait a minute, then go on. What you typed is still in the form when you go back.", "Espere un minuto y siga. Lo que escribió sigue en el formulario al volver atrás.");
    public static readonly Phrase NotNow = new("This page can't be shown now", "Ahora no se puede mostrar esta página");
    public static readonly Phrase NotNowDo = new(
        "We could not write down that you opened it, so we did not show it. Try again in a minute; if it stays, tell your administrator.",
        "No pudimos anotar que usted la abrió, así que no la mostramos. Pruebe en un minuto; si sigue igual, avise a la administración.");
    public static readonly Phrase SavedFirst = new("Somebody else saved this first", "Otra persona lo guardó antes");
    public static readonly Phrase SavedFirstDo = new(
        "What you typed is still in the form when you go back. Load the page again, see what stands now, and save once more if it should be otherwise.",
        "Lo que escribió sigue en el formulario al volver atrás. Cargue la página de nuevo, mire lo que vale ahora y guarde otra vez si debe ser de otra manera.");
    public static readonly Phrase Ours = new("Something went wrong on our side", "Algo ha fallado por nuestra parte");
    public static readonly Phrase OursDo = new(
        "Nothing that you had saved before is lost. Try again in a minute; if it stays, tell your administrator when it happened.",
        "No se ha perdido nada de lo que tenía guardado. Pruebe en un minuto; si sigue igual, diga a la administración cuándo pasó.");
    public static readonly Phrase ToStart = new("Back to the start", "Volver al inicio");

    // ------------------------------------------------------------ problems of the forms of one's own account
    /// <summary>{0} stands for a number or an address.</summary>
    public static IReadOnlyList<Phrase> OfForms { get; } =
    [
        new("Enter your e-mail address.", "Escriba su dirección de correo."),
        new("Enter your password.", "Escriba su contraseña."),
        new("Choose a password.", "Elija una contraseña."),
        new("Choose a new password.", "Elija una contraseña nueva."),
        new("Enter the password that you have now.", "Escriba la contraseña que tiene ahora."),
        new("Enter the new address.", "Escriba la dirección nueva."),
        new("That is no e-mail address: it needs one @ with something on both sides.", "Eso no es una dirección de correo: necesita una @ con algo a los dos lados."),
        new("Give it a name, such as the device on which it lies.", "Póngale un nombre, por ejemplo el del aparato en el que está."),
        new("That password has {0} characters; it needs 15 or more. Four or five words that do not belong together are easy to remember.",
            "Esa contraseña tiene {0} caracteres; necesita 15 o más. Cuatro o cinco palabras que no tengan que ver entre sí son fáciles de recordar."),
        new("That password has {0} characters; 256 is the most.", "Esa contraseña tiene {0} caracteres; 256 es el máximo."),
        new("That password is one of the first that strangers try: a common one, one thing repeated, or a name with something after it. Take four or five words that do not belong together.",
            "Esa contraseña es de las primeras que prueban los extraños: una muy común, algo repetido, o un nombre con algo detrás. Tome cuatro o cinco palabras que no tengan que ver entre sí."),
        new("That is not the password you have now. After several wrong tries we look again a quarter of an hour later.",
            "Esa no es la contraseña que tiene ahora. Después de varios intentos equivocados hay que esperar un cuarto de hora."),
        new("This e-mail address and this password do not go together. After several wrong tries we look again a quarter of an hour later; a browser in which you have signed in before keeps a count of its own.",
            "Esta dirección de correo y esta contraseña no van juntas. Después de varios intentos equivocados hay que esperar un cuarto de hora; un navegador en el que ya entró lleva su propia cuenta."),
        new("Choose when the quiet hours begin.", "Elija cuándo empiezan las horas sin mensajes."),
        new("Choose when the quiet hours end.", "Elija cuándo terminan las horas sin mensajes."),
        new("Choose a zone of the list.", "Elija una zona de la lista."),
        new("Enter your own password: you typed it more than a quarter of an hour ago.", "Escriba su propia contraseña: la escribió hace más de un cuarto de hora."),
        new("Enter the code that your authenticator app shows now; each code counts once.", "Escriba el código que muestra ahora su aplicación de códigos; cada uno sirve una vez."),
        new("Several codes were wrong. Wait a quarter of an hour, then try again.", "Varios códigos no eran correctos. Espere un cuarto de hora y pruebe otra vez."),
        new("That is not the code which the app shows now. Wait for the next one; if that is refused too, set the phone's clock to network time.",
            "Ese no es el código que muestra ahora la aplicación. Espere al siguiente; si tampoco vale, ponga el reloj del teléfono en hora automática."),
        new("That took too long. Try again.", "Tardó demasiado. Pruebe otra vez."),
        new("The device did not make a passkey that asks for its owner. Try again, or use an authenticator app.",
            "El aparato no creó una llave que pregunte por su dueño. Pruebe otra vez o use una aplicación de códigos."),
        new("There are {0} passkeys already. Remove one that you do not use.", "Ya hay {0} llaves de acceso. Quite una que no use."),
        new("That passkey opens nothing here. Try again, or sign in with your password.", "Esa llave de acceso no abre nada aquí. Pruebe otra vez o entre con su contraseña."),
        new("No agency has you on its list, so no mail can go out.", "Ninguna agencia le tiene en su lista, así que no se puede enviar ningún mensaje."),
        new("Somebody signs in with this address already.", "Alguien ya usa esta dirección para entrar."),
        new("This form came without its number, so nothing was saved. Open the page again and type it once more.",
            "Este formulario llegó sin su número, así que no se guardó nada. Abra la página otra vez y escríbalo de nuevo."),
        new("That identity belongs to another account here already.", "Esa identidad ya es de otra cuenta de aquí."),
    ];

    private static readonly IReadOnlyList<(Regex English, Phrase Phrase)> Patterns =
        [.. OfForms.Select(p => (new Regex($"^{Regex.Escape(p.English).Replace(@"\{0}", "(.+?)", StringComparison.Ordinal)}$"), p))];

    /// <summary>A problem as its form says it, in the reader's language; a message that is none of these stays as it is.</summary>
    public static string In(Language language, string message)
    {
        if (language == Language.English)
            return message;
        foreach (var (english, phrase) in Patterns)
        {
            if (english.Match(message) is { Success: true } match)
                return phrase.In(language, [.. match.Groups.Values.Skip(1).Select(g => g.Value)]);
        }
        return message;
    }
}
