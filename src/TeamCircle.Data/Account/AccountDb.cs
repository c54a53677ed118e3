using Microsoft.AspNetCore.DataProtection.EntityFrameworkCore;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Identity.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore;

namespace TeamCircle.Data.Account;

/// <summary>Who signs in: accounts, their factors, sign-ins, invitations and the keys that protect cookies. No learner data.</summary>
/// <remarks>A schema and a database role of its own, so that a slip in a page query can't reach a password hash.</remarks>
public sealed class AccountDb(DbContextOptions<AccountDb> options) : IdentityUserContext<AccountRow, long>(options), IDataProtectionKeyContext
{
    public const string Schema = "account";

    public DbSet<MembershipRow> Memberships => Set<MembershipRow>();
    public DbSet<SignInRow> SignIns => Set<SignInRow>();
    public DbSet<InvitationRow> Invitations => Set<InvitationRow>();
    public DbSet<FeedRow> Feeds => Set<FeedRow>();
    public DbSet<AccountEventRow> Events => Set<AccountEventRow>();
    public DbSet<AuthenticatorRow> Authenticators => Set<AuthenticatorRow>();
    public DbSet<RecoveryCodeRow> RecoveryCodes => Set<RecoveryCodeRow>();
    public DbSet<PasskeyChallengeRow> PasskeyChallenges => Set<PasskeyChallengeRow>();
    public DbSet<TryRow> Tries => Set<TryRow>();
    public DbSet<SignInRuleRow> SignInRules => Set<SignInRuleRow>();
    public DbSet<ProviderLinkRow> ProviderLinks => Set<ProviderLinkRow>();
    public DbSet<DataProtectionKey> DataProtectionKeys => Set<DataProtectionKey>();

    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder) =>
        configurationBuilder.Properties<Enum>().HaveConversion<string>().HaveMaxLength(40);

    protected override void OnModelCreating(ModelBuilder builder)
    {
        base.OnModelCreating(builder);
        builder.HasDefaultSchema(Schema);
        builder.Entity<AccountRow>().ToTable("accounts");
        builder.Entity<IdentityUserClaim<long>>().ToTable("account_claims");
        builder.Entity<IdentityUserLogin<long>>().ToTable("account_logins");
        builder.Entity<IdentityUserToken<long>>().ToTable("account_tokens");
        builder.Entity<IdentityUserPasskey<long>>().ToTable("account_passkeys");
        builder.Entity<MembershipRow>(t =>
        {
            t.ToTable("memberships");
            t.HasKey(r => new { r.AgencyId, r.PersonId });
            t.HasOne<AccountRow>().WithMany().HasForeignKey(r => r.AccountId).OnDelete(DeleteBehavior.Restrict);
        });
        builder.Entity<SignInRow>(t =>
        {
            t.ToTable("sign_ins");
            t.HasIndex(r => r.KeyHash).IsUnique();
            t.HasIndex(r => r.AccountId);
            t.HasOne<AccountRow>().WithMany().HasForeignKey(r => r.AccountId).OnDelete(DeleteBehavior.Cascade);
        });
        builder.Entity<InvitationRow>(t =>
        {
            t.ToTable("invitations");
            t.HasIndex(r => r.TokenHash).IsUnique();
        });
        builder.Entity<FeedRow>(t =>
        {
            t.ToTable("feeds");
            t.HasIndex(r => r.KeyHash).IsUnique();
            // One address at a time: a second one made at the same moment is refused.
            t.HasIndex(r => new { r.AgencyId, r.PersonId }).IsUnique().HasFilter("ended_at is null");
        });
        builder.Entity<AccountEventRow>(t =>
        {
            t.ToTable("events");
            t.HasIndex(r => new { r.AccountId, r.Id });
            t.Property(r => r.At).HasDefaultValueSql("now()");
        });
        AddFactors(builder);
    }

    private static void AddFactors(ModelBuilder builder)
    {
        builder.Entity<AuthenticatorRow>(t =>
        {
            t.ToTable("authenticators");
            t.HasKey(r => r.AccountId);
            t.HasOne<AccountRow>().WithOne().HasForeignKey<AuthenticatorRow>(r => r.AccountId).OnDelete(DeleteBehavior.Cascade);
        });
        builder.Entity<RecoveryCodeRow>(t =>
        {
            t.ToTable("recovery_codes");
            t.HasIndex(r => new { r.AccountId, r.CodeHash }).IsUnique();
            t.HasOne<AccountRow>().WithMany().HasForeignKey(r => r.AccountId).OnDelete(DeleteBehavior.Cascade);
        });
        builder.Entity<PasskeyChallengeRow>(t =>
        {
            t.ToTable("passkey_challenges");
            t.HasKey(r => r.KeyHash);
        });
        builder.Entity<TryRow>(t =>
        {
            t.ToTable("tries");
            t.HasKey(r => r.KeyHash);
            t.HasIndex(r => r.Last);
        });
        builder.Entity<SignInRuleRow>(t =>
        {
            t.ToTable("sign_in_rules");
            t.HasKey(r => r.AgencyId);
            t.Property(r => r.AgencyId).ValueGeneratedNever();
            t.Property(r => r.Version).IsConcurrencyToken();
        });
        builder.Entity<ProviderLinkRow>(t =>
        {
            t.ToTable("provider_links");
            t.HasKey(r => new { r.Issuer, r.Subject });
            t.HasOne<AccountRow>().WithMany().HasForeignKey(r => r.AccountId).OnDelete(DeleteBehavior.Cascade);
        });
    }
}
