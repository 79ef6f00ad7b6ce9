// Package web is the workroom in the browser: the shelf of dockets, a docket
// as one long sheet, the files behind it, and a page for the phone at the
// machine.
//
// Pieces are moved by hand on the cloth (bench), and photos traced (trace).
//
// Pages are made on the server from a snapshot of the store and from what
// making.Run makes of it; nothing is worked out here. They work without a
// script; the script only spares the waiting. Every drawing is one of package
// sheet, written as SVG.
//
// What a docket makes is kept on its table: what answers at once (fit to
// finish) is made while the page waits, lays, order and needs follow behind it
// and the page is told when they are there. Lays of something that has changed
// since are shown greyed and cannot be printed. Searches for better lays are asked
// for in the store and done by whoever serves the same workroom (Work).
package web
