package softsphere

import "math"

// views are the directions across the string from which it is seen, as shares of X and Y: every 22.5 degrees.
var views = [...][2]float64{
	{1, 0}, {cosEighth, sinEighth}, {cosQuarter, cosQuarter}, {sinEighth, cosEighth},
	{0, 1}, {-sinEighth, cosEighth}, {-cosQuarter, cosQuarter}, {-cosEighth, sinEighth},
}

// Cosines and sines of 45 and 22.5 degrees.
const (
	cosQuarter = 0.70710678118654752440
	cosEighth  = 0.92387953251128675613
	sinEighth  = 0.38268343236508977173
)

// WidthMM returns the visible width of a string, as a tape measure held across it reads: from one edge of its outline
// to the other, as a mean along the string and over eight views around it. A stretch without balloons counts as 0. A
// free cluster has none.
func (r Rest) WidthMM() float64 {
	mean, _ := r.widths()
	return mean
}

// WidestMM returns the largest width of a string: what such a tape measure reads at its thickest place, from the view
// from which it is thickest.
func (r Rest) WidestMM() float64 {
	_, most := r.widths()
	return most
}

func (r Rest) widths() (mean, most float64) {
	if r.LengthMM <= 0 || len(r.Balloons) == 0 {
		return 0, 0
	}
	o := newOutline(r.LengthMM, r.meanDiameter()/fineness)
	for _, view := range views {
		o.draw(r.Balloons, view)
		for i := range o.low {
			wide := max(o.high[i]-o.low[i], 0)
			mean += wide / float64(len(o.low)*len(views))
			most = max(most, wide)
		}
	}
	return mean, most
}

func (r Rest) meanDiameter() float64 {
	mean := 0.0
	for _, b := range r.Balloons {
		mean += 2 * b.Radius / float64(len(r.Balloons))
	}
	return mean
}

// outline is the two edges of a string at stations along it. It repeats along the string.
type outline struct {
	step      float64
	low, high []float64
}

func newOutline(length, step float64) *outline {
	n := max(1, int(math.Ceil(length/step)))
	return &outline{length / float64(n), make([]float64, n), make([]float64, n)}
}

// draw finds the edges from a view.
func (o *outline) draw(balloons []Balloon, view [2]float64) {
	for i := range o.low {
		o.low[i], o.high[i] = math.Inf(1), math.Inf(-1)
	}
	for _, b := range balloons {
		o.disc(b.Z, float64(view[0]*b.X)+float64(view[1]*b.Y), b.Radius)
	}
}

// disc moves the edges out to those of a disc.
func (o *outline) disc(z, x, radius float64) {
	n := len(o.low)
	from := int(math.Ceil((z-radius)/o.step - 0.5))
	to := int(math.Floor((z+radius)/o.step - 0.5))
	for station := from; station <= to; station++ {
		off := float64((float64(station)+0.5)*o.step) - z
		chord := math.Sqrt(max(float64(radius*radius)-float64(off*off), 0))
		i := (station%n + n) % n
		o.low[i], o.high[i] = min(o.low[i], x-chord), max(o.high[i], x+chord)
	}
}
