-- +goose Up
-- What probes and loggers read. A reading is only ever added, as it was received.
create table probe (
	no bigint generated always as identity primary key,
	name text not null unique
);

create table reading_batch (
	no bigint generated always as identity primary key,
	id text not null unique,
	name text not null,
	who text not null,
	device text not null,
	received_ms bigint not null
);

create table reading (
	probe bigint not null,
	at_ms bigint not null,
	batch bigint not null,
	line bigint not null,
	temp_mc bigint,
	raw text not null,
	flags text not null,
	primary key (probe, at_ms, batch, line)
);
