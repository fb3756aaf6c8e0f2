package table

import "garlandry/calc/nest"

// Alike is the curve of a cluster of duplets of one size, 1 to MostAlike.
func Alike(duplets int) nest.Curve {
	return read(Entry{Small: min(max(duplets, 1), MostAlike), Ratio: 1})
}

// Mixed is the curve of a cluster of two sizes: straight between the ratios of
// the table, and from the largest of them on level. Each count is 1 or more and
// together they are at most MostMixed.
func Mixed(small, large int, ratio float64) nest.Curve {
	before, curve := 1.0, Alike(small+large)
	for _, next := range Ratios() {
		following := read(Entry{Small: small, Large: large, Ratio: next})
		if ratio <= next {
			return curve.Mix(following, max(0, (ratio-before)/(next-before)))
		}
		before, curve = next, following
	}
	return curve
}

func read(e Entry) nest.Curve {
	at := e.place() * Width
	return Decode(curves[at : at+Width])
}
