create table editions (
    id text primary key,
    sources bytea not null
);

create table ledger (
    number integer primary key check (number > 0),
    body bytea not null,
    previous_hash text not null,
    hash text not null
);
