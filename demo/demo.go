// Package demo holds the demo workroom, a small theatre's: bodies, cloths,
// machines, patterns, dockets and an order of work. See README.md for the cast.
package demo

import "embed"

// Files is the whole workroom, as `gusset new` lays it out.
//
//go:embed README.md bodies cloths machines patterns dockets orders photos
var Files embed.FS
