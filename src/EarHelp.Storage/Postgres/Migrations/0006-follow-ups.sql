-- How patients are asked after a visit, and what was sent.
create table follow_ups (
    conversation text primary key references conversations on delete cascade,
    version integer not null check (version > 0),
    body bytea not null
);
