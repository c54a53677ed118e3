using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Mvc;
using Microsoft.Extensions.Options;
using TeamCircle.Data.Account;
using TeamCircle.Data.People;
using TeamCircle.Web.Startup.Access;

namespace TeamCircle.Web.Startup;

/// <summary>Sign-in by a cookie whose ticket stays on the server, and the access matrix before every page.</summary>
internal static class SignInSetUp
{
    public static void AddSignIn(this WebApplicationBuilder builder)
    {
        var services = builder.Services;
        var secure = !PlainHttp.IsAllowed(builder.Environment, builder.Configuration);
        if (builder.Environment.IsDevelopment())
            services.AddSingleton(new DemonstrationAccounts(AreLetIn: true));
        services.AddScoped<CurrentCaller>();
        services.AddSingleton(AccessMatrix.Read());
        services.AddDataProtection().SetApplicationName("TeamCircle").PersistKeysToDbContext<AccountDb>();
        services.AddSingleton<ITicketStore, TicketStore>();
        services.AddSingleton<KnownBrowsers>();
        services.AddSingleton<KeptForm>();
        services.AddScoped<BeginSignIn>();
        services.AddScoped<FreshSignIn>();
        services.AddAuthentication(CookieAuthenticationDefaults.AuthenticationScheme).AddCookie(o => SetCookie(o, secure))
            .AddProviders(IdentityProvider.Read(builder.Configuration), secure);
        services.AddOptions<CookieAuthenticationOptions>(CookieAuthenticationDefaults.AuthenticationScheme)
            .Configure<ITicketStore>((o, store) => o.SessionStore = store);
        services.AddAntiforgery(o => SetForm(o.Cookie, "form", secure));
        services.Configure<CookieTempDataProviderOptions>(o => SetForm(o.Cookie, "note", secure));
        services.AddHsts(o => (o.MaxAge, o.IncludeSubDomains) = (TimeSpan.FromDays(365), true));
        Limits.Add(builder);
        services.Configure<MvcOptions>(o => o.Filters.Add<AccessFilter>());
    }

    private static void SetCookie(CookieAuthenticationOptions options, bool secure)
    {
        SetForm(options.Cookie, "sign-in", secure);
        options.Cookie.SameSite = SameSiteMode.Lax; // a link in a mail must find the person signed in
        options.ExpireTimeSpan = SignInSpan.Whole.ToTimeSpan();
        options.SlidingExpiration = false; // the idle hour is kept by the store
        options.LoginPath = "/sign-in";
        options.ReturnUrlParameter = "then";
        options.Events.OnRedirectToLogin = ToSignIn;
    }

    /// <summary>Leads to the sign-in by its path alone: the framework's own address repeats the host that the request named, and anybody can name one.</summary>
    private static Task ToSignIn(RedirectContext<CookieAuthenticationOptions> asked)
    {
        asked.Response.Redirect(new Uri(asked.RedirectUri).PathAndQuery);
        return Task.CompletedTask;
    }

    private static void SetForm(CookieBuilder cookie, string name, bool secure)
    {
        cookie.Name = (secure ? "__Host-" : "") + "teamcircle-" + name;
        cookie.SecurePolicy = secure ? CookieSecurePolicy.Always : CookieSecurePolicy.SameAsRequest;
        cookie.HttpOnly = true;
        cookie.SameSite = SameSiteMode.Strict;
        cookie.Path = "/";
    }

    /// <summary>Reads who asks, once a request, so that a right given or taken away acts on the next one.</summary>
    public static void UseSignIn(this WebApplication app)
    {
        app.UseAuthentication();
        app.UseRateLimiter();
        app.Use(async (http, next) =>
        {
            var caller = http.RequestServices.GetRequiredService<CurrentCaller>();
            if (caller.AccountId is null && SignInTicket.Of(http.User) is { } ticket)
                await SignedInAsync(http, caller, ticket);
            await next(http);
        });
        app.UseKeptForms();
        app.UseEndpointAccess();
    }

    private static async Task SignedInAsync(HttpContext http, CurrentCaller caller, SignInTicket ticket)
    {
        var found = await FindAsync(http, ticket);
        caller.SignedIn(ticket, found, await http.RequestServices.GetRequiredService<IdentityProviders>().LacksAsync(ticket, found, http.RequestAborted));
    }

    private static async Task<Core.People.Caller?> FindAsync(HttpContext http, SignInTicket ticket) =>
        ticket is { Agency: { } agency, Person: { } person }
        && await http.RequestServices.GetRequiredService<ReadCaller>().RunAsync(agency, person, http.RequestAborted) is { } caller
            ? caller with { Address = NetworkAddress.Of(http) }
            : null;
}
