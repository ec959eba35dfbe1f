-- +goose Up
-- What probes and loggers read. A reading is only ever added, as it was received.
create table probe (
	no integer primary key,
	name text not null unique
) strict;

create table reading_batch (
	no integer primary key,
	id text not null unique,
	name text not null,
	who text not null,
	device text not null,
	received_ms integer not null
) strict;

create table reading (
	probe integer not null,
	at_ms integer not null,
	batch integer not null,
	line integer not null,
	temp_mc integer,
	raw text not null,
	flags text not null,
	primary key (probe, at_ms, batch, line)
) strict, without rowid;
