using System.Data;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;

namespace TeamCircle.Data.Beginning;

/// <summary>Makes an agency with nothing in it but its own terminal, for whoever may reach the database. Its first administrator is invited after it.</summary>
public sealed class MakeAgency(Portal portal)
{
    private const int LongestName = 200;

    /// <param name="Code">2 to 20 letters and figures; no other agency has it, whatever its case.</param>
    /// <param name="TimeZone">A name of the tz database.</param>
    public sealed record Input(string Code, string Name, string TimeZone);

    public sealed record Done(int Agency);

    public async Task<Outcome<Done>> RunAsync(Input input, CancellationToken stop)
    {
        if (input.Code is not { Length: >= 2 and <= 20 } code || !code.All(char.IsAsciiLetterOrDigit))
            return Outcome<Done>.Refused("Code", "The code has 2 to 20 letters and figures.");
        if (input.Name.Trim() is not { Length: > 0 and <= LongestName } name)
            return Outcome<Done>.Refused("Name", $"The agency's name has 1 to {LongestName} letters.");
        if (DateTimeZoneProviders.Tzdb.GetZoneOrNull(input.TimeZone) is null)
            return Outcome<Done>.Refused("TimeZone", "This is no name of the tz database. Write one such as America/Los_Angeles.");
        await using var work = await portal.OpenAsync(new Scope(Wall.Agency, 0, 0, [], true, "making an agency"), IsolationLevel.ReadCommitted, null, stop);
        if (await work.Db.Database.SqlQuery<int?>($"select portal.agency_id_of({code}) as \"Value\"").SingleAsync(stop) is not null)
            return Outcome<Done>.Refused("Code", $"There is an agency {code} already. TeamCircle.Cli invite makes a link for somebody of it.");
        var made = await work.Db.Database.SqlQuery<int>($"select portal.make_agency({code}, {name}, {input.TimeZone}) as \"Value\"").SingleAsync(stop);
        await work.CommitAsync(stop);
        return Outcome<Done>.Of(new(made));
    }
}
