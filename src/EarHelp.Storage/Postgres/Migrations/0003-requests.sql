-- Requests for visits. Times are half-open ranges of ticks (100 ns) since 1970, several in one value, so that one person may hold a time
-- that overlaps their own booked one, and nobody else may.
create table requests (
    conversation text primary key references conversations on delete cascade,
    version integer not null check (version > 0),
    waiting boolean not null,
    changed_at bigint not null,
    booked int8multirange not null,
    held_until bigint not null,
    times int8multirange not null,
    body bytea not null,
    contact bytea,
    constraint requests_nobody_shares_a_time exclude using gist (times with &&)
);
