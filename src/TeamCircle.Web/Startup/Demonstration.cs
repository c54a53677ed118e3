using TeamCircle.Core;
using TeamCircle.Data.Account;
using TeamCircle.Data.Demonstration;

namespace TeamCircle.Web.Startup;

internal static class Demonstration
{
    /// <summary>Fills an empty database with the demonstration agency around today, and tells who may sign in to it. Development only.</summary>
    /// <returns>One line for each sign-in, to print; none where the database holds other agencies.</returns>
    public static async Task<IReadOnlyList<string>> FillAsync(IServiceProvider services)
    {
        await using var scope = services.CreateAsyncScope();
        var agency = await scope.ServiceProvider.GetRequiredService<SeedDemonstration>().RunAsync();
        if (agency is null)
            return [];
        var accounts = scope.ServiceProvider.GetRequiredService<CreateDemonstrationAccounts>();
        var made = await accounts.RunAsync(agency, isDevelopment: true, CancellationToken.None);
        return
        [
            $"Demonstration sign-ins, all with the passphrase: {CreateDemonstrationAccounts.Passphrase}",
            .. made.Select(p => $"  {p.Email} ({string.Join(", ", p.Roles.Select(r => Words.Of(r)))})"),
        ];
    }
}
