-- +goose Up
-- Readings in pieces of less than a day each: a row for each of millions is slow to write and large to keep.
drop table reading;

create table reading_piece (
	probe integer not null,
	from_ms integer not null, -- of its first reading by time
	batch integer not null,
	part integer not null, -- of the batch; of what a probe posted, drawn from the post's own ID
	to_ms integer not null, -- of its last reading by time
	data blob not null,
	primary key (probe, from_ms, batch, part)
) strict, without rowid;
