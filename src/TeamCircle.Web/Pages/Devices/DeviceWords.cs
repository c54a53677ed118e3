using NodaTime;
using TeamCircle.Data.Devices;
using TeamCircle.Web.Ui;

namespace TeamCircle.Web.Pages.Devices;

/// <summary>Devices and what they sent, in words.</summary>
public static class DeviceWords
{
    /// <summary>Mon 14 Sep, 9:05 am</summary>
    public static string Time(LocalDateTime at) => $"{Say.ShortDay(at.Date)}, {Say.Time(at.TimeOfDay)}";

    public static string Of(ListedDevice device)
    {
        var contact = device.LastContact is { } last ? $"last contact {Time(last)}" : "no contact yet";
        return device.RevokedAt is { } revoked ? $"Revoked {Time(revoked)} by {device.RevokedBy}; {contact}" : $"Since {Time(device.MadeAt)}; {contact}";
    }

    public static string Of(OperationKind kind) => kind switch
    {
        OperationKind.Practice => "A practice",
        OperationKind.Visit => "The log of a visit",
        OperationKind.Hold => "A hold",
        _ => "A probe",
    };

    /// <summary>From five minutes on; null where there is nothing to say.</summary>
    public static string? Skew(int? ms) => ms is { } skew && Math.Abs((long)skew) > Data.Practice.RecordPractice.ShownSkew.TotalMilliseconds
        ? $"its clock was {Say.Minutes((int)(Math.Abs((long)skew) / 60_000))} {(skew > 0 ? "ahead" : "behind")}"
        : null;
}
