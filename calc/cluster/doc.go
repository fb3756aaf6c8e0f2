// Package cluster answers what a cluster of balloons does on a garland: how big
// its ball is, how far apart clusters stand, how many a length takes, and which
// other recipe comes nearest when a colour lacks a size.
//
// It knows balloons only as diameters in recipes written in duplets. It refuses
// to know colours, prices, pieces, or how a balloon is blown up.
//
// Where the figures come from. calc/nest relaxes soft spheres tied to a string;
// a small table of its curves, made by go generate, answers here at once: every
// recipe of one size, and two sizes with up to four duplets, straight between
// the tabled ratios. Other recipes are brought down to those: three sizes or
// more to the two nearest groups, more than four mixed duplets to the mixed
// cluster of four that is nearest in share, scaled by what one size would do. A
// Model relaxes a recipe itself and keeps the answer, to see how near that is.
// The functions here are pure and take microseconds; a plan uses only them, so
// that phone and server count alike.
//
// One push for all. Builders push clusters together until the balloons give by
// the same share of their size, whatever is in them; that push is fixed by one
// rule of thumb (see StandardPush), and every other pitch follows. The same
// force in newtons for all sizes would crush 5-inch quads to six a foot, where
// four to five a foot are usual (from memory).
//
// Start at ParseRecipe, then Measure and ClustersAlong.
package cluster

//go:generate go run ./internal/tabulate
