using System.Security.Cryptography;
using System.Text;

namespace TeamCircle.Core.Routines;

/// <summary>By what it is known whether somebody has seen a card's cautions in full: they are shown so at first and after each change, later in one line.</summary>
public static class CautionMarks
{
    /// <summary>The same for two cards with the same cautions, in 64 hexadecimal digits; null where there is nothing to be seen.</summary>
    public static string? Of(RoutineContent card)
    {
        if (card.Cautions.Count == 0 && !card.Flashing)
            return null;
        var seen = new RoutineContent { Cautions = card.Cautions, Flashing = card.Flashing, SeizuresAsked = card.SeizuresAsked };
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(seen.Write())));
    }
}
