grant select, insert, update on account.feeds to teamcircle_account;
