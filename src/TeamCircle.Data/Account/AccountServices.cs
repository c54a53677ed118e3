using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Identity.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using TeamCircle.Core.People;

namespace TeamCircle.Data.Account;

internal static class AccountServices
{
    public static IServiceCollection AddAccount(this IServiceCollection services)
    {
        services.AddIdentityCore<AccountRow>(o =>
        {
            // The one rule here is length; PasswordRules says the rest, in words (docs/decisions/0006-signing-in.md).
            o.Password = new PasswordOptions
            {
                RequiredLength = PasswordRules.Shortest,
                RequireDigit = false,
                RequireLowercase = false,
                RequireUppercase = false,
                RequireNonAlphanumeric = false,
            };
            o.User.RequireUniqueEmail = true;
            o.User.AllowedUserNameCharacters = ""; // user names are e-mail addresses
        });
        services.Configure<PasswordHasherOptions>(o => o.IterationCount = 210_000);
        // Nothing is saved behind an operation's back: each saves its rows and its events in one transaction.
        services.AddScoped<IUserStore<AccountRow>>(
            s => new UserOnlyStore<AccountRow, AccountDb, long>(s.GetRequiredService<AccountDb>()) { AutoSaveChanges = false });
        services.TryAddSingleton(new DemonstrationAccounts(AreLetIn: false));
        services.AddSingleton<KeepSignIn>().AddSingleton<FindSignIn>().AddSingleton<ChangeTicket>().AddSingleton<EndSignIn>();
        services.AddSingleton<SignInThrottle>().AddScoped<CheckPassword>().AddScoped<SignIn>().AddScoped<ReadMemberships>();
        services.AddScoped<MakeLink>().AddScoped<ReadLink>().AddScoped<JoinAgency>().AddScoped<SetPasswordByLink>();
        services.AddScoped<ChangePassword>().AddScoped<ReadSignIns>().AddScoped<EndOwnSignIns>().AddScoped<ConfirmPassword>();
        services.AddScoped<MakeFeed>().AddScoped<EndFeed>().AddScoped<ReadFeed>();
        services.AddScoped<ReadStandings>().AddScoped<EndPersonsSignIns>().AddScoped<ExpireAccess>();
        services.AddSingleton<AuthenticatorSeal>().AddScoped<NoticeOfChange>().AddScoped<ReplacePassword>().AddScoped<ReadFactors>();
        services.AddScoped<TakeSecondStep>().AddScoped<SetAuthenticator>().AddScoped<MakeRecoveryCodes>().AddScoped<RemoveFactor>();
        services.AddScoped<RemovePersonsFactors>().AddScoped<SetSignInRule>().AddScoped<AskPasskey>().AddScoped<CheckPasskey>().AddScoped<AddPasskey>();
        services.AddScoped<IPasskeyHandler<AccountRow>, PasskeyHandler<AccountRow>>();
        services.Configure<IdentityPasskeyOptions>(o =>
        {
            // A passkey counts as two factors only because it asks for its owner each time.
            o.UserVerificationRequirement = "required";
            o.ResidentKeyRequirement = "required";
            // What the browser signed as its origin must be the address at which it reached us. The framework would compare it with the header
            // Origin, which a browser leaves out of a form where no referrer may be told.
            o.ValidateOrigin = signed => ValueTask.FromResult(
                !signed.CrossOrigin && signed.Origin == $"{signed.HttpContext.Request.Scheme}://{signed.HttpContext.Request.Host}");
        });
        services.AddScoped<FindAgency>().AddScoped<SignInByProvider>().AddScoped<LinkProvider>().AddScoped<JoinByProvider>();
        services.AddScoped<AskForNewEmail>().AddScoped<SetNewEmail>();
        return services.AddScoped<CreateDemonstrationAccounts>();
    }
}
