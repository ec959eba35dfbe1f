-- +goose Up
-- What must never be in the chain or an export: hashes of passwords, PINs, tokens and keys.
create table secret (
	person text primary key not null,
	password text not null,
	pin text not null
);

create table session (
	token text primary key not null,
	id text not null unique,
	device text not null,
	opened_by text not null,
	began_ms bigint not null,
	seen_ms bigint not null,
	acting text not null,
	shown text not null,
	shown_ms bigint not null
);

create table session_person (
	session text not null,
	person text not null,
	since_ms bigint not null,
	primary key (session, person)
);

create table wrong_try (
	name text primary key not null,
	tries bigint not null,
	last_ms bigint not null
);

create table instrument_key (
	token text primary key not null,
	name text not null unique,
	made_ms bigint not null,
	seen_ms bigint not null,
	made_by text not null
);
