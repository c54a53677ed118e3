using NodaTime;
using TeamCircle.Data.Account;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.People;

/// <summary>A link to hand over, as the page that made it shows it.</summary>
public sealed record ShownLink(string Name, string Address, string Until)
{
    public static ShownLink Of(string name, Link link, HttpRequest request)
    {
        var ends = link.EndsAt.InUtc().LocalDateTime;
        return new(name, $"{request.Scheme}://{request.Host}{link.Path}", $"{Say.Date(ends.Date)}, {Say.Time(ends.TimeOfDay)} UTC");
    }
}
