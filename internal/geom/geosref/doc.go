// Package geosref compares the plane geometry with GEOS, the reference
// implementation of the OGC Simple Features operations in C++. It is a module
// of its own, because it needs cgo and Debian's libgeos-dev, which nothing
// else here does: cd internal/geom/geosref && go test ./...
package geosref
