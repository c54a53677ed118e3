using System.Data;
using Microsoft.EntityFrameworkCore;
using TeamCircle.Data.Mail;
using TeamCircle.Data.People;

namespace TeamCircle.Data.Demonstration;

/// <summary>Odalys and Marisol want their digests on every day at the hour of the first start: so each finds one in the folder a minute later.</summary>
internal sealed class DemonstrationMail(Portal portal, TimeProvider clock, Scope scope)
{
    private static readonly string[] Wanting = ["odalys@tallowfern.example", "marisol@tallowfern.example"];

    public async Task AddAsync(CancellationToken stop)
    {
        await using var work = await portal.OpenAsync(scope, IsolationLevel.ReadCommitted, stop: stop);
        var zone = await work.Db.Agencies.Where(a => a.Id == scope.AgencyId).Select(a => a.TimeZone).SingleAsync(stop);
        var hour = new LocalTime(AgencyClock.Now(clock, zone).Hour, 0);
        var people = await work.Db.People.Where(p => p.AgencyId == scope.AgencyId && Wanting.Contains(p.Email)).Select(p => p.Id).ToListAsync(stop);
        work.Db.AddRange(people.Select(p => new MailChoiceRow
        {
            AgencyId = scope.AgencyId,
            PersonId = p,
            Days = 0b1111111,
            At = hour,
            QuietFrom = LocalTime.Midnight,
            QuietUntil = LocalTime.Midnight,
        }));
        await work.Db.SaveChangesAsync(stop);
        await work.CommitAsync(stop);
    }
}
