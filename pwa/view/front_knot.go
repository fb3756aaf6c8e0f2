package view

import (
	g "maragu.dev/gomponents"

	"garlandry/app/plan/look"
)

// From these radii on, in units of a picture, a balloon is larger than 40 px: where the picture fills a wide screen of
// 1,000 px, and where it fills a phone of 390 px.
const (
	knotWide  = 20
	knotPhone = 51
)

// knot draws the neck and the knot of a balloon on a ribbon, behind the balloon: it makes the ball a slight pear. In
// clusters necks point inwards, and a balloon that was rounded out is a ball, so they have none. It is nil for small
// balloons and those still to make; style sheets hide it on phones where it would be small there. Drawn by hand.
func (f *front) knot(l *look.Look, b *look.Balloon, made stateOf) g.Node {
	r := b.RadiusMM
	if !b.Knotted || made == isToDo || r*f.scale < knotWide {
		return nil
	}
	class := "knot"
	if r*f.scale < knotPhone {
		class = "knot little"
	}
	var points []float64
	for _, at := range [...][2]float64{{-.62, -.78}, {-.3, -.98}, {-.08, -1.1}, {-.15, -1.2}, {.15, -1.2}, {.08, -1.1},
		{.3, -.98}, {.62, -.78}} {
		points = append(points, b.XMM+float64(at[0]*r), b.YMM+float64(at[1]*r))
	}
	return g.Raw(`<path class="` + class + `" fill="` + fill(l.Colours[b.Colour].Value) + `" d="` + f.path(points, 2) +
		`"/>`)
}
