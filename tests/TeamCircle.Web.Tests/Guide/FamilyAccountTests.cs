using System.ComponentModel.DataAnnotations;
using System.Net.Http.Headers;
using System.Reflection;
using AngleSharp.Html.Parser;
using Microsoft.AspNetCore.Mvc.Testing;
using TeamCircle.Core.Account;
using TeamCircle.Core.Family;
using TeamCircle.Core.People;
using TeamCircle.Data.Account;

namespace TeamCircle.Web.Tests.Guide;

/// <summary>Whoever reads Spanish reads it from the sign-in on: no page that a family needs falls back to English.</summary>
public sealed class FamilyAccountTests(TeamPortal portal) : IClassFixture<TeamPortal>
{
    [Theory]
    [InlineData("/account", "Su cuenta")]
    [InlineData("/account/password", "Cambiar su contraseña")]
    [InlineData("/account/email", "Cambiar su dirección de correo")]
    [InlineData("/account/mail", "Sus mensajes")]
    [InlineData("/account/factors", "Su segundo paso")]
    [InlineData("/sign-out", "Cerrar sesión")]
    [InlineData("/help", "Ayuda para familias")]
    [InlineData("/help/words", "Palabras que lee aquí")]
    public async Task Mother_who_chose_Spanish_reads_it(string path, string heading)
    {
        var page = await portal.PageAsync(portal.Team.Ines, path + "?in=es");

        Assert.Equal(("es", heading), (page.DocumentElement.GetAttribute("lang"), page.Text("main h1")));
        Assert.DoesNotContain(page.Texts("main :is(h1, h2, label, legend, button, .act, .aside)"), t => t.StartsWith("Your ", StringComparison.Ordinal) || t.Contains(" the ", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("/sign-in", "Iniciar sesión")]
    [InlineData("/there-is-no-such-thing", "Esa página no existe")]
    public async Task Browser_that_asks_for_Spanish_reads_it_before_anybody_has_signed_in(string path, string heading)
    {
        using var browser = portal.CreateClient(new WebApplicationFactoryClientOptions { BaseAddress = new Uri("https://portal.tallowfern.example") });
        browser.DefaultRequestHeaders.AcceptLanguage.Add(new StringWithQualityHeaderValue("es"));
        using var answer = await browser.GetAsync(new Uri(path, UriKind.Relative), TestContext.Current.CancellationToken);
        var page = await new HtmlParser().ParseDocumentAsync(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));

        Assert.Equal(("es", heading), (page.DocumentElement.GetAttribute("lang"), page.Text("main h1")));
    }

    [Fact]
    public async Task Wrong_password_is_told_in_Spanish()
    {
        var browser = await portal.BrowserAsync(portal.Team.Ines);
        var page = await new HtmlParser().ParseDocumentAsync(await browser.GetStringAsync(new Uri("/account/password?in=es", UriKind.Relative)));
        var form = page.QuerySelectorAll("main form").Single().QuerySelectorAll("input[type=hidden]").ToDictionary(i => i.GetAttribute("name")!, i => i.GetAttribute("value") ?? "");
        form["Input.Current"] = "not the one";
        form["Input.New"] = "short";
        using var sent = new FormUrlEncodedContent(form);
        using var answer = await browser.PostAsync(new Uri("/account/password?in=es", UriKind.Relative), sent, TestContext.Current.CancellationToken);
        var again = await new HtmlParser().ParseDocumentAsync(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));

        Assert.Contains(again.Texts(".problem"), t => t.StartsWith("Esa contraseña tiene 5 caracteres", StringComparison.Ordinal));
        Assert.All(again.Texts(".problems li"), t => Assert.DoesNotContain("password", t, StringComparison.Ordinal));
    }

    [Fact]
    public void Every_problem_of_a_form_that_families_fill_in_has_its_Spanish()
    {
        Type[] forms = [typeof(SignIn.Input), typeof(JoinAgency.Input), typeof(SetPasswordByLink.Input), typeof(ChangePassword.Input), typeof(AskForNewEmail.Input), typeof(AddPasskey.Input)];
        var messages = forms.SelectMany(f => f.GetProperties()).SelectMany(p => p.GetCustomAttributes<ValidationAttribute>()).Select(a => a.ErrorMessage).OfType<string>()
            .Concat(new[] { "short", new string('x', 300), "passwordpassword1234" }.SelectMany(p => PasswordRules.Check("", p, ["Ines"])).Select(p => p.Message))
            .Append(CheckPassword.NotTogether.Message).Append(LinkProvider.IsSomebodyElses.Message).ToHashSet();

        Assert.True(messages.Count > 9, $"Only {messages.Count} problems were found.");
        Assert.DoesNotContain(messages, m => ProblemWords.In(Language.Spanish, m) == m);
    }
}
