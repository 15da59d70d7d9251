create table staff (
    id text primary key,
    version integer not null check (version > 0),
    sign_in_name text not null,
    body bytea not null
);

create unique index staff_nobody_shares_a_name on staff (sign_in_name) where sign_in_name <> '';

create table audit (
    number integer primary key check (number > 0),
    body bytea not null,
    previous_hash text not null,
    hash text not null
);
