-- What the board of some days asks: loads that something was told of since then, and those that are in the air however long ago.
CREATE INDEX flow_by_touched ON flow (touched);
CREATE INDEX flow_in_the_air ON flow (load) WHERE event = 'lifted' OR hint = 'lifted';

-- The latest seal that proves a time: without this a home full of seals of nobody known is walked through from end to end.
CREATE INDEX records_in_time ON records (issued, id) WHERE in_time = 1;

-- What groups of records come to, of all time: the index alone answers it, in its own order.
CREATE INDEX records_in_groups ON records
    (procedure, rigger, inspector, device, found, corrected, outcome, issued, standing);
