// Package geom holds the plane geometry that pattern pieces are made of:
// points, line and cubic segments, curves of connected segments, and closed
// loops. It knows nothing of cloth or sewing.
//
// Lengths are millimetres, angles radians, y points up and loops run
// counter-clockwise. A curve is a list of segments in which every segment
// begins where the one before it ended; arc length along it is the coordinate
// that seams, notches and changes speak in.
//
// Cross and dot products are written with explicit float64 conversions around
// each product, which forbids the compiler to fuse them, so that results agree
// on every processor.
package geom
