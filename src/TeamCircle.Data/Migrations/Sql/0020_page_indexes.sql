-- Goals that the visits of some learners name: asked by every page that works out what was given, and read from one end of the table to the other without this.
create index ix_visit_goals_learner on portal.visit_goals (agency_id, learner_id) include (goal_id, visit_id);
