namespace TeamCircle.Web.Startup;

internal static class Demonstration
{
    /// <summary>Fills an empty database with the demonstration agency around today, and tells who may sign in to it.</summary>
    /// <returns>One line for each sign-in, to print.</returns>
    public static Task<IReadOnlyList<string>> FillAsync(IServiceProvider services)
    {
        _ = services;
        return Task.FromResult<IReadOnlyList<string>>([]);
    }
}
