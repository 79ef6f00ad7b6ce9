-- +goose Up
CREATE TABLE ticks (
	docket TEXT    NOT NULL,
	step   TEXT    NOT NULL,
	done   INTEGER NOT NULL,
	at     BIGINT  NOT NULL,
	PRIMARY KEY (docket, step)
);

-- +goose Down
DROP TABLE ticks;
