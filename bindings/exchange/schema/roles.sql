-- The least right that a desk needs: to read, and to add. Run once a server; then one login a desk:
--   CREATE ROLE lantern_1 LOGIN PASSWORD '...' CONNECTION LIMIT 4 IN ROLE slingseal_desk;
CREATE ROLE slingseal_desk NOLOGIN;
GRANT USAGE ON SCHEMA slingseal TO slingseal_desk;
GRANT SELECT ON slingseal.step, slingseal.place, slingseal.source, slingseal.word TO slingseal_desk;
GRANT INSERT ON slingseal.source, slingseal.word TO slingseal_desk;
