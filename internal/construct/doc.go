// Package construct turns the joins, finishes, closures and parts of a view
// into one plan of how the garment is made.
//
// Everything later follows from the plan: how much cloth each edge needs beyond
// its stitching line (package finish cuts by it), what is done in which
// dependence (package order sorts it), and what must be bought (package needs
// counts it). Only this package reads methods, so a method swapped in the
// docket moves allowances, operations and notions together.
//
// # Widths
//
// The width of an allowance is, in this order: the sum of the method's own list
// for that side; the item's value "allowance"; the allowance the paper prints;
// the method's value "allowance". Cloth that goes round a fold runs round half a
// circle on its middle surface, whose radius is half the thickness: each turn of
// cloth costs π/2 times the thickness. (A published 7/8 in jeans hem is two
// 3/8 in turns and 1/8 in for the turns of cloth, 3.2 mm; two turns of cloth
// 1.0 mm thick are 3.14 mm.)
//
// Two items may take the same stretch one after the other. An item that only
// bastes (no closing operation) or that is sewn down over a seam already made (a
// side without a width of its own, where the method gives one to other sides)
// leaves the width to the other; else the larger width counts and is warned of.
//
// # What comes first
//
// Corners and stretch ends of all copies are glued into nodes as the joins sew
// them together. A seam that ends at a node must be sewn and pressed before any
// work that runs across the node: hems after the leg seams, the waist after the
// seat seam, the seat seam after the yoke.
package construct
