using System.Reflection;
using System.Text.RegularExpressions;
using NodaTime;
using TeamCircle.Core.Account;
using TeamCircle.Core.Calendar;
using TeamCircle.Core.Commitments;
using TeamCircle.Core.Family;
using TeamCircle.Core.Learners;
using TeamCircle.Core.Sessions;

namespace TeamCircle.Core.Tests.Family;

/// <summary>What families read, in both languages: the glossary is whole, and no word of the staff's gets in.</summary>
public sealed partial class FamilyWordsTests
{
    /// <summary>Codes and terms of the staff pages, English and Spanish.</summary>
    private static readonly string[] OfStaff =
    [
        "lack", "owed", "prompt", "probe", "trial", "window", "surplus", "service line", "session", "latency", "baseline", "make-up", "met", "pace", "IEP", "TVI",
        "OT", "PT", "AT", "failed", "failure", "behind", "deficit", "sesión de", "déficit", "fracas", "retras", "sonda", "ventana",
    ];

    private static readonly FamilySentences English = new(Language.English, "Wren", "Marisol Quenby"), Spanish = new(Language.Spanish, "Wren", "Marisol Quenby");

    private static readonly FamilyVisit Visit = new(
        new(2026, 9, 14), new(9, 30), 45, VisitKind.Service, Discipline.Vision, "Odalys Ferreira", Place.Home, false, false, null, null, 0, null);

    private static IReadOnlyList<(string Name, Phrase Phrase)> All => Of(typeof(FamilyGlossary));

    private static IReadOnlyList<(string Name, Phrase Phrase)> Of(Type glossary) => [.. glossary.GetFields(BindingFlags.Public | BindingFlags.Static).SelectMany(f => f.GetValue(null) switch
    {
        Phrase one => [(f.Name, one)],
        IEnumerable<Phrase> many => many.Select(p => (f.Name, p)),
        _ => [],
    })];

    [GeneratedRegex(@"\{\d\}")]
    private static partial Regex Blanks();

    [Fact]
    public void Every_phrase_is_there_in_both_languages_with_the_same_blanks()
    {
        Assert.True(All.Count > 150, $"Only {All.Count} phrases were found.");
        (string, Phrase)[] ofAccounts = [.. Of(typeof(SecondStepWords)), .. Of(typeof(OwnAccountWords)), .. Of(typeof(ProblemWords)), .. ProblemWords.OfForms.Select(p => (p.English, p))];
        foreach (var (name, phrase) in All.Concat(ofAccounts))
        {
            Assert.False(string.IsNullOrWhiteSpace(phrase.English) || string.IsNullOrWhiteSpace(phrase.Spanish), name);
            Assert.Equal((name, Blanked(phrase.English)), (name, Blanked(phrase.Spanish)));
        }

        static string Blanked(string words) => string.Join(' ', Blanks().Matches(words).Select(m => m.Value).Distinct().Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData(Withheld.NotCountersigned, "The minutes count once a colleague has signed for them.")]
    [InlineData(Withheld.AssistantsNotCounted, "The minutes do not count for the plan.")]
    [InlineData(Withheld.NotQualified, "The minutes do not count for the plan.")]
    public void Visit_whose_minutes_do_not_count_took_place_all_the_same(Withheld why, string said)
    {
        var words = English.Before(Visit with { Outcome = VisitOutcome.Given, Withheld = why });

        Assert.StartsWith("Odalys Ferreira came for ", words, StringComparison.Ordinal);
        Assert.EndsWith(said, words, StringComparison.Ordinal);
    }

    [Fact]
    public void No_phrase_holds_a_word_of_the_staff()
    {
        foreach (var (name, phrase) in All)
        {
            foreach (var word in OfStaff)
                Assert.False(Regex.IsMatch($"{phrase.English} {phrase.Spanish}", $@"\b{Regex.Escape(word)}\b", word.Any(char.IsLower) ? RegexOptions.IgnoreCase : RegexOptions.None), $"{name}: {word}");
        }
    }

    [Fact]
    public void No_code_of_a_reason_service_or_status_reaches_a_family()
    {
        foreach (var words in new[] { English, Spanish })
        {
            foreach (var reason in Enum.GetValues<Reason>())
            {
                var said = words.Before(Visit with { IsCalledOff = true, Reason = reason });
                Assert.DoesNotContain($"{reason}", said, StringComparison.Ordinal);
                Assert.DoesNotContain("{", said, StringComparison.Ordinal);
            }
            foreach (var discipline in Enum.GetValues<Discipline>())
                Assert.NotEqual($"{discipline}", words.Service(discipline));
            foreach (var status in Enum.GetValues<Status>())
                Assert.DoesNotContain(status.ToString(), words.Minutes(Balance(status)), StringComparison.OrdinalIgnoreCase);
        }
    }

    [Fact]
    public void Visit_is_a_sentence_in_each_language()
    {
        Assert.Equal("Odalys Ferreira comes for vision teaching.", English.Coming(Visit));
        Assert.Equal("Odalys Ferreira viene para la enseñanza visual.", Spanish.Coming(Visit));
        var cut = Visit with { Outcome = VisitOutcome.Given, Given = 30, Reason = Reason.LearnerAsleepOrNotAlert };
        Assert.Equal("Odalys Ferreira gave 30 minutes of vision teaching; it was cut short: Wren was asleep or not awake enough.", English.Before(cut));
        Assert.Equal("Odalys Ferreira dio 30 minutos de enseñanza visual; terminó antes de lo previsto: Wren dormía o tenía demasiado sueño.", Spanish.Before(cut));
        var not = Visit with { Outcome = VisitOutcome.NotOffered, Reason = Reason.ProviderUnwell };
        Assert.Equal("La enseñanza visual con Odalys Ferreira no tuvo lugar: no pudimos enviar a nadie.", Spanish.Before(not));
        Assert.Equal("Odalys Ferreira no viene: Wren no se sentía bien.", Spanish.Coming(Visit with { IsCalledOff = true, Reason = Reason.LearnerUnwell }));
    }

    [Fact]
    public void Minutes_are_one_sentence_in_each_language()
    {
        var behind = Balance(Status.CatchingUp);

        Assert.Equal("1,200 of the 1,245 minutes due so far were given; 45 minutes not yet given; plan: extra visits to catch up have their dates.", English.Minutes(behind));
        Assert.Equal("Se dieron 1,200 de los 1,245 minutos que tocaban hasta ahora; faltan 45 minutos por dar; plan: las visitas adicionales para recuperarlos ya tienen fecha.", Spanish.Minutes(behind));
        Assert.Equal(
            "De lo que no se dio alrededor del 15 de septiembre, el equipo decidió el 21 de septiembre que no hace falta recuperar 1 minuto; no anotamos cuándo se le informó a usted.",
            Spanish.NotOwed(new(2026, 9, 15), new(2026, 9, 21), 1, null));
    }

    [Theory]
    [InlineData(Language.English, "14, 16 and 21 September and 5 October", "14 September to 13 November 2026", "9:05 am", "12:30 pm", "Tomorrow")]
    [InlineData(Language.Spanish, "14, 16 y 21 de septiembre y 5 de octubre", "del 14 de septiembre al 13 de noviembre de 2026", "9:05 a. m.", "12:30 p. m.", "Mañana")]
    public void Days_and_times_follow_the_language(Language language, string days, string span, string morning, string noon, string tomorrow)
    {
        var dates = new FamilyDates(language);

        Assert.Equal(days, dates.Days([new(2026, 9, 14), new(2026, 9, 16), new(2026, 9, 21), new(2026, 10, 5), new(2026, 10, 5)]));
        Assert.Equal(span, dates.Dates(new(2026, 9, 14), new(2026, 11, 13)));
        Assert.Equal((morning, noon), (dates.Time(new(9, 5)), dates.Time(new(12, 30))));
        Assert.Equal(tomorrow, FamilyDates.Begin(dates.NearDay(new(2026, 9, 15), new(2026, 9, 14))));
    }

    private static Balance Balance(Status status) => default(Balance) with
    {
        Minutes = new(1245, 0, 1245, 1200, 45, 45, 1245, 45, 0),
        Status = status,
    };
}
