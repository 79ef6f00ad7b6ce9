-- +goose Up
CREATE TABLE searches (
	docket  TEXT    PRIMARY KEY,
	number  BIGINT  NOT NULL,
	asked   TEXT    NOT NULL,
	state   TEXT    NOT NULL,
	holder  TEXT    NOT NULL,
	until   BIGINT  NOT NULL,
	stopped INTEGER NOT NULL,
	ended   INTEGER NOT NULL
);
CREATE TABLE lays_found (
	docket TEXT NOT NULL,
	role   TEXT NOT NULL,
	data   TEXT NOT NULL,
	PRIMARY KEY (docket, role)
);

-- +goose Down
DROP TABLE lays_found;
DROP TABLE searches;
