using System.ComponentModel.DataAnnotations;
using TeamCircle.Core;

namespace TeamCircle.Data.Account;

/// <summary>Signs in by e-mail address and password.</summary>
public sealed class SignIn(CheckPassword check)
{
    public sealed record Input
    {
        [Required(ErrorMessage = "Enter your e-mail address."), StringLength(254)]
        public string Email { get; init; } = "";

        [Required(ErrorMessage = "Enter your password."), StringLength(2000), DataType(DataType.Password)]
        public string Password { get; init; } = "";
    }

    /// <summary>Somebody who gave the right password.</summary>
    public sealed record Done(long Account);

    /// <summary>One answer for an unknown address, a wrong password, an ended account and a place that must wait.</summary>
    public async Task<Outcome<Done>> RunAsync(Input input, Place place, CancellationToken stop) =>
        await check.RunAsync(input.Email, input.Password, place, AccountEvent.SignedIn, stop) is { } account
            ? Outcome<Done>.Of(new Done(account.Id))
            : Outcome<Done>.Refused(CheckPassword.NotTogether);
}
