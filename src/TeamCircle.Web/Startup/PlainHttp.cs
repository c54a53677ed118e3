namespace TeamCircle.Web.Startup;

/// <summary>
/// Whether the portal may be reached without https: in Development, and where <c>PlainHttp=true</c> says so for a try on
/// one machine. Everywhere else cookies are bound to https by their names, and a browser without it can't sign in.
/// </summary>
internal static class PlainHttp
{
    public static bool IsAllowed(IHostEnvironment environment, IConfiguration configuration) =>
        environment.IsDevelopment() || configuration.GetValue<bool>("PlainHttp");
}
