-- +goose Up
CREATE TABLE accounts (
	name TEXT PRIMARY KEY,
	hash TEXT NOT NULL
);
CREATE TABLE sessions (
	token   TEXT   PRIMARY KEY,
	account TEXT   NOT NULL REFERENCES accounts (name) ON DELETE CASCADE,
	until   BIGINT NOT NULL
);

-- +goose Down
DROP TABLE sessions;
DROP TABLE accounts;
