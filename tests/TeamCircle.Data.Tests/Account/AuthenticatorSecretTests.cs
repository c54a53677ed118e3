using System.Text;
using NodaTime;
using TeamCircle.Data.Account;

namespace TeamCircle.Data.Tests.Account;

/// <summary>Codes of an authenticator app against RFC 6238, Appendix B (SHA-1): its secret, its times, the last six of its eight digits.</summary>
public sealed class AuthenticatorSecretTests
{
    private static readonly AuthenticatorSecret Published = AuthenticatorSecret.Of(Encoding.ASCII.GetBytes("12345678901234567890"));

    [Theory]
    [InlineData(59, "94287082")]
    [InlineData(1111111109, "07081804")]
    [InlineData(1111111111, "14050471")]
    [InlineData(1234567890, "89005924")]
    [InlineData(2000000000, "69279037")]
    [InlineData(20000000000, "65353130")]
    public void Code_is_the_published_one_and_is_taken_in_its_step_the_one_before_and_the_one_after(long seconds, string published)
    {
        var (at, code) = (Instant.FromUnixTimeSeconds(seconds), published[2..]);
        var step = seconds / 30;

        Assert.Equal(code, Published.CodeAt(at));
        foreach (var steps in new[] { -1, 0, 1 })
            Assert.Equal(step, Published.StepOf(code, at + Duration.FromSeconds(30 * steps)));
        foreach (var steps in new[] { -2, 2 }.Where(s => seconds + 30 * s >= 0))
            Assert.Null(Published.StepOf(code, at + Duration.FromSeconds(30 * steps)));
    }
}
