// Package store keeps a workroom in a database, so that several people and
// devices can work in it at once and nothing is ever lost.
//
// A workroom is a set of files, as package making describes them. Here every
// file is kept in every version it ever had. Whatever is written belongs to a
// numbered change: one or more files, written all together or not at all, with
// who made it and when. The numbers run without gaps in the order in which the
// changes were made, so a number names a state of the whole workroom: At gives
// that state as a file system, which is what making.Open reads. There is no
// other way to read a workroom.
//
// Whoever edits a file says which version of it they saw. When somebody else
// has written it since, nothing is written and a Conflict says whose version
// stands there now. Undo is a change like any other, so it can be undone.
//
// A change is acknowledged only when it is safe on the disk: SQLite writes
// ahead with full synchronisation, PostgreSQL as its server is set up. The
// same statements serve both.
package store
