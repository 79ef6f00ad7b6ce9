// Package nest places flat shapes in strips and other flat containers so that
// nothing overlaps and the length used is small.
package nest
