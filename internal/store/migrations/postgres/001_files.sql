-- +goose Up
CREATE TABLE changes (
	number  BIGINT PRIMARY KEY,
	at      BIGINT NOT NULL,
	made_by TEXT   NOT NULL,
	note    TEXT   NOT NULL
);
CREATE TABLE versions (
	path   TEXT    NOT NULL,
	change BIGINT  NOT NULL REFERENCES changes (number),
	before BIGINT  NOT NULL,
	gone   INTEGER NOT NULL,
	size   BIGINT  NOT NULL,
	data   BYTEA,
	PRIMARY KEY (path, change)
);
CREATE INDEX versions_of_change ON versions (change);

-- +goose Down
DROP TABLE versions;
DROP TABLE changes;
