// Package cluster answers what a cluster of balloons does on a garland: how big
// its ball is, how far apart clusters stand, how many a length takes, and which
// other recipe comes nearest when a colour lacks a size.
//
// It knows balloons only as diameters in recipes written in duplets. It refuses
// to know colours, prices, pieces, or how a balloon is blown up.
//
// Where the figures come from. calc/softsphere relaxes soft spheres tied to a string;
// a small table of its curves, made by go generate, answers here at once: one
// size, two sizes, and three with up to five duplets, straight between the tabled
// ratios. For other recipes two sizes stand in that have the same count, mean
// size, spread and volume. Strings relaxed from different starts differ by one or
// two percent, so that no table can be nearer. Held against relaxing 400 recipes
// of usual sizings drawn at random, at the standard push, the pitch of what the
// table holds is within 1.1 % for half and 4 % for 19 of 20 (7.5 % at worst, where
// clusters fold), of what it does not within 4 % and 14 % (23 % at worst); girth
// and ball are within 3 % for 19 of 20 of either.
//
// The functions here are pure and take microseconds; a plan uses only them, so
// that phone and server count alike. A Model relaxes what the table does not hold
// and keeps the answer, for whoever looks closer at one recipe.
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
