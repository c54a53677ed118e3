using Microsoft.EntityFrameworkCore;
using TeamCircle.Core;
using TeamCircle.Core.Mail;
using TeamCircle.Data.Account;
using TeamCircle.Data.Devices;

namespace TeamCircle.Data.Mail;

/// <summary>Stops one kind of mail for one person, by the address that came in such a mail: one request, without a sign-in (RFC 8058).</summary>
public sealed class Unsubscribe(Portal portal)
{
    /// <summary>What an address stops.</summary>
    public sealed record Offer(int Agency, int Person, MailKind Kind);

    public sealed record Done(MailKind Kind);

    /// <summary>What an address would stop, without stopping it: mail programs open links on their own. Null where there is no such address.</summary>
    public async Task<Offer?> FindAsync(string key, CancellationToken stop = default)
    {
        var hash = Secret.Of(key).Hash;
        var found = await portal.ReadAsync(Scope.Job(0, 0, "unsubscribing"), db => db.Database
            .SqlQuery<Found>($"select agency_id, person_id, kind from portal.mail_of_token({hash})").SingleOrDefaultAsync(stop), stop);
        return found is null ? null : new(found.AgencyId, found.PersonId, Enum.Parse<MailKind>(found.Kind));
    }

    /// <summary>Done again, it answers the same.</summary>
    /// <returns>Null where there is no such address.</returns>
    public async Task<Done?> RunAsync(string key, CancellationToken stop = default)
    {
        if (await FindAsync(key, stop) is not { } offer)
            return null;
        var outcome = await portal.WriteAsync(Scope.Job(offer.Agency, offer.Person, "the address in a mail"), Operation.Own(nameof(Unsubscribe)), async db =>
        {
            (await ChooseMails.OfAsync(db, offer.Agency, offer.Person, stop)).Refuse(offer.Kind);
            return Outcome<Done>.Of(new(offer.Kind));
        }, stop);
        return outcome.Value ?? await RunAsync(key, stop); // somebody chose at the same moment: the later one stands
    }

    private sealed record Found(int AgencyId, int PersonId, string Kind);
}
