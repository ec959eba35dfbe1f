-- +goose Up
-- Pictures, each once, as they came. Their hashes stand in entries of the chain.
create table picture (
	hash text not null primary key,
	type text not null,
	kept_ms bigint not null,
	data bytea not null
);
