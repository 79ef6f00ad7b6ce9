// Package demo holds the demo workroom, a small theatre's: bodies, cloths,
// machines, patterns, dockets, an order of work and a lay by hand. See README.md for the cast.
package demo

import "embed"

// Files is the whole workroom, as `gusset new` lays it out.
//
//go:embed README.md bodies cloths machines patterns dockets orders lays photos
var Files embed.FS
