using TeamCircle.Core;
using TeamCircle.Core.People;
using TeamCircle.Data.Commitments;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Calendar;

/// <summary>The way to everything that only an administrator sets: the calendar, places, travel, working hours.</summary>
internal static class SettingsDoor
{
    /// <param name="ground">What is set, for the trail of changes.</param>
    public static async Task<Outcome<T>> WriteSettingsAsync<T>(
        this Portal portal, Caller caller, string ground, Operation operation, Func<PortalDb, Task<Outcome<T>>> work, CancellationToken stop)
        where T : class =>
        caller.Is(Role.Administrator)
            ? await portal.WriteAsync(Scope.WholeAgency(caller, ground), operation, work, stop)
            : Outcome<T>.Refused(Problem.NotFound);

    /// <summary>What the same would do to the statuses; nothing is saved.</summary>
    public static async Task<Outcome<StatusPreview>> PreviewSettingsAsync<T>(
        this Portal portal, Caller caller, string ground, Func<PortalDb, Task<Outcome<T>>> work, CancellationToken stop)
        where T : class =>
        caller.Is(Role.Administrator)
            ? await StatusPreview.RunAsync(portal, Scope.WholeAgency(caller, ground), caller.Today, work, stop)
            : Outcome<StatusPreview>.Refused(Problem.NotFound);
}
