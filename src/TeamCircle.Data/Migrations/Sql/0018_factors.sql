-- Second factors, tries and rules for signing in: behind the wall of the accounts, like all else about them.
grant select, insert, update, delete on account.authenticators, account.recovery_codes, account.passkey_challenges, account.tries,
    account.sign_in_rules, account.provider_links to teamcircle_account;
-- A rule is changed, never taken away.
revoke delete on account.sign_in_rules from teamcircle_account;

-- Besides links, accounts queue the mail that tells their owner that something about signing in has changed, and the link to a new address.
create policy account_notices on portal.outbox for insert to teamcircle_account
    with check (kind in ('NewEmail', 'SignInChanged') and learner_id is null);
