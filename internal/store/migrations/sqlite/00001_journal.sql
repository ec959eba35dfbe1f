-- +goose Up
-- The mark of a kettlefrost file: "KFST".
pragma application_id = 1262900052;

create table entry (
	seq integer primary key check (seq > 0),
	id text not null unique,
	kind text not null,
	happened_ms integer not null,
	entered_ms integer not null,
	who text not null,
	device text not null,
	site text not null,
	corrects text not null,
	body text not null,
	prev text not null,
	hash text not null
) strict;

create index entry_kind on entry (kind, seq);

create table kept (
	name text primary key not null,
	seq integer not null,
	hash text not null,
	data blob not null
) strict;
