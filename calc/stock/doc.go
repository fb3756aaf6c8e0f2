// Package stock turns needs into purchases: how many to buy so that enough
// survive ([Spares]), how many of each colour ([Split], [Spread]) and which
// bags cover a need most cheaply ([Bags]).
//
// Everything is whole balloons (or duplets, or whatever the caller counts) and
// whole cents. Shares sum exactly, purchases are exact optima, not estimates.
//
// The package does not know what is being counted, which colours exist or what
// breaks how often: rates, weights and prices come from the caller.
package stock
