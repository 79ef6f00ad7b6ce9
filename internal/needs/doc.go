// Package needs counts what a make takes: thread by kind, cloth, zips,
// buttons, needles.
//
// Thread is counted stitch by stitch. A stitch lays a fixed figure of thread:
// a lockstitch (ISO 4915 number 301) runs one stitch length on each side of
// the cloth and goes once through its thickness and back, so with stitch
// length N and thickness T it takes 2N + 2T. Divided by N this is the ratio of
// thread to seam. Where no figure is known, or the thickness is not, a
// published ratio stands in, and every number names the source it rests on.
//
// A ratio counts thread in the seam only. Threading up, breaks and unpicking
// are covered by a wastage; the ends left hanging at both ends of each row by
// tails.
package needs
