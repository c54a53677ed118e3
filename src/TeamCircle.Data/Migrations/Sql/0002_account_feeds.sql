-- A feed that ends keeps its row.
revoke delete on account.feeds from teamcircle_account;
