// Package fit turns a multi-size pattern into the size this body needs.
//
// A body is seldom one printed size: the waist may be a 16, the hip a 12, the
// thigh a 15. So the size is not one number but a field on the garment. It is
// set at named levels (waist, hip, thigh, knee, hem) and runs smoothly between
// them, never beyond the sizes of the two neighbouring levels. A pattern maker
// does the same with a pencil, blending from one printed line to the next.
//
// Three rules make the blended pieces fit each other:
//
//   - Points that will be sewn together share one size. Pieces without levels
//     (a yoke, a band, a pocket bag) take their size along the seams from the
//     pieces they are joined to.
//   - Between two printed sizes every point runs along a smooth monotone curve
//     through its printed places, so that nothing overshoots; where the printed
//     line is smooth its direction and its handles are carried on, so that it
//     stays smooth; what is printed straight stays straight.
//   - A blend ends with truing: what is left of a difference between the sides
//     of a seam is shared along its edges, and said.
//
// Outside the printed range nothing is invented: the body is refused, with the
// amount. The whole garment then gets its ease table: garment less body.
package fit
