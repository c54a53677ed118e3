-- The account schema has a role of its own; no learner's data is in it, and no other role reaches it.
grant usage on schema account to teamcircle_account;
grant select, insert, update, delete on all tables in schema account to teamcircle_account;
revoke update, delete on account.events from teamcircle_account;
-- A feed that ends keeps its row.
revoke delete on account.feeds from teamcircle_account;
revoke all on account.migrations from teamcircle_account;
create unique index ix_accounts_email on account.accounts (lower(email));
