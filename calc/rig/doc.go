// Package rig says whether a stand, a bar or a line will hold: how far a bar
// dips, whether wind or a push tips or slides a frame, and whether line carries
// what hangs on it.
//
// It does not know what the loads are made of, which piece they belong to, or
// local codes: its verdicts are a first look, never a permission. Where
// people can be under a load it gives no verdict at all.
//
// Start at [Bar.Dip], [Frame.Tip] and [Line.Hold]; the texts to show beside them
// are in the Caution constants. Lengths are millimetres,
// masses grams (kilograms for ballast), forces newton, speeds metres a second.
package rig
