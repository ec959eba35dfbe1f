-- +goose Up
create table entry (
	seq bigint primary key check (seq > 0),
	id text not null unique,
	kind text not null,
	happened_ms bigint not null,
	entered_ms bigint not null,
	who text not null,
	device text not null,
	site text not null,
	corrects text not null,
	body text not null,
	prev text not null,
	hash text not null
);

create index entry_kind on entry (kind, seq);

create table kept (
	name text primary key not null,
	seq bigint not null,
	hash text not null,
	data bytea not null
);
