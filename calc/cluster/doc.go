// Package cluster answers what a cluster of balloons does on a garland: how big
// its ball is, how far apart clusters stand, how many a length takes, and which
// other recipe comes nearest when a colour lacks a size.
//
// It knows balloons only as diameters in recipes written in duplets. It refuses
// to know colours, prices, pieces, or how a balloon is blown up.
//
// Start at ParseRecipe, then PitchMM and ClustersAlong.
package cluster
