-- Keys that seal what staff's browsers hold and the keys of their one-time codes, one for all nodes.
create table sealing_keys (
    name text primary key,
    body text not null
);
