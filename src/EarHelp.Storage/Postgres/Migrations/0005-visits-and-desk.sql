-- What was recorded of a visit, by the conversation for the time after it. "before" is the conversation from which it was asked for.
create table visits (
    conversation text primary key references conversations on delete cascade,
    before text,
    at bigint not null,
    body bytea not null
);

create index visits_before on visits (before) where before is not null;

-- When the clinic closed at once: moments in milliseconds since 1970, the last day inside.
create table closings (
    set_at bigint primary key,
    last_day date not null,
    lifted_at bigint
);

create table incidents (
    id text primary key,
    conversation text not null references conversations on delete cascade,
    body bytea not null
);

create index incidents_conversation on incidents (conversation);

-- For whom the desk holds a conversation.
create table callers (
    conversation text primary key references conversations on delete cascade,
    held_by text not null,
    at bigint not null,
    number text not null,
    followed_up_by text
);
