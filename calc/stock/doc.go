// Package stock turns needs into purchases: how many to buy so that enough survive ([Spares]), how many of each colour
// ([Split]) and the cheapest bags that cover a need ([Bags]).
//
// Everything is whole balloons (or duplets, or whatever the caller counts) and whole cents. Shares sum exactly, and
// purchases are exact optima.
//
// The package does not know what is being counted, which colours exist or how often something breaks: rates, weights
// and prices come from the caller.
package stock
