package table

// Entry is one recipe of the table, as a shape: balloons of diameter 1 and, when
// Large is not 0, balloons of diameter Ratio.
type Entry struct {
	Small, Large int // duplets
	Ratio        float64
}

// MostAlike is the most duplets of one size in the table, MostMixed of two.
const (
	MostAlike = 8
	MostMixed = 4
)

// ratioCount is the number of [Ratios].
const ratioCount = 4

// Ratios are the size ratios of the mixed entries, rising: 1.6 is 16 on 10 in,
// 2.2 is 22 on 10 in or 10 on 4.5 in, 3.5 is 16 on 4.5 in.
func Ratios() [ratioCount]float64 { return [4]float64{1.3, 1.6, 2.2, 3.5} }

// Entries lists the table in its written order.
func Entries() []Entry {
	var entries []Entry
	for duplets := 1; duplets <= MostAlike; duplets++ {
		entries = append(entries, Entry{Small: duplets, Ratio: 1})
	}
	for duplets := 2; duplets <= MostMixed; duplets++ {
		for small := 1; small < duplets; small++ {
			for _, ratio := range Ratios() {
				entries = append(entries, Entry{Small: small, Large: duplets - small, Ratio: ratio})
			}
		}
	}
	return entries
}

// Diameters lists the entry's balloons.
func (e Entry) Diameters() []float64 {
	diameters := make([]float64, 0, 2*(e.Small+e.Large))
	for range 2 * e.Small {
		diameters = append(diameters, 1)
	}
	for range 2 * e.Large {
		diameters = append(diameters, e.Ratio)
	}
	return diameters
}

// place is the entry's number in the written order.
func (e Entry) place() int {
	if e.Large == 0 {
		return e.Small - 1
	}
	duplets := e.Small + e.Large
	before := (duplets - 2) * (duplets - 1) / 2
	row := (before + e.Small - 1) * ratioCount
	for i, ratio := range Ratios() {
		if ratio == e.Ratio {
			return MostAlike + row + i
		}
	}
	return MostAlike + row
}
