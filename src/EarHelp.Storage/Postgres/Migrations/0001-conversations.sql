-- One row a conversation: its last turn. A turn is appended by moving this row from n-1 to n, which one transaction at a time can do.
create table conversations (
    id text primary key,
    last_number integer not null check (last_number > 0),
    last_at bigint not null,
    finished boolean not null
) with (fillfactor = 70);

create index conversations_unfinished on conversations (last_at) where not finished;

-- The key makes a repeated turn one turn. The number is unique by the row above, which is locked by whoever appends.
create table turns (
    conversation text not null,
    number integer not null,
    turn_id text not null,
    at bigint not null,
    edition text not null,
    engine text not null,
    finished boolean not null,
    body bytea not null,
    previous_hash text not null,
    hash text not null,
    primary key (conversation, turn_id)
);

alter table turns alter column body set compression lz4;

-- Only hashes of the secrets that open conversations.
create table keys (
    hash text primary key,
    conversation text not null references conversations on delete cascade,
    one_time boolean not null,
    expires bigint not null
);

create index keys_conversation on keys (conversation);
