package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
)

// picture is a small drawing of a kind of piece on 72 by 48: lines, and balloons as x, y and radius.
type picture struct {
	lines    string
	balloons []float64
}

// pictures are drawn by us, by the key of the start that they stand for.
var pictures = map[string]picture{
	"garland": {"M5 12Q36 46 67 12", []float64{8, 14, 5.5, 15, 21, 6, 23, 26, 5.5, 31, 30, 6.5, 41, 30, 5.5, 49, 26, 6,
		57, 21, 5.5, 64, 14, 6, 11, 20, 3, 27, 32, 3, 45, 22, 3, 60, 14, 3}},
	"arch": {"M9 46V30C9 0 63 0 63 30V46", []float64{10, 42, 5.5, 9, 33, 5, 11, 24, 5.5, 17, 15, 5, 26, 9, 5.5, 36, 7, 5.5,
		46, 9, 5, 55, 15, 5.5, 61, 24, 5, 63, 33, 5.5, 62, 42, 5, 15, 30, 3, 31, 13, 3, 57, 22, 3}},
	"hoop": {"M36 4a20 20 0 1 0 .1 0", []float64{36, 5, 4.5, 27, 7, 5.5, 20, 13, 5, 16, 21, 6, 18, 30, 5.5, 24, 38, 5,
		32, 43, 5.5, 40, 43, 4.5, 23, 17, 3, 24, 31, 3}},
	"column": {"M24 46V6M48 46V6M17 46h14M41 46h14", []float64{20, 41, 4.5, 28, 41, 4.5, 20, 33, 4.5, 28, 33, 4.5, 20, 25,
		4.5, 28, 25, 4.5, 20, 17, 4.5, 28, 17, 4.5, 24, 8, 6.5, 44, 41, 4.5, 52, 41, 4.5, 44, 33, 4.5, 52, 33, 4.5, 44,
		25, 4.5, 52, 25, 4.5, 44, 17, 4.5, 52, 17, 4.5, 48, 8, 6.5}},
	"wall": {"M8 3h56v42H8z", []float64{14, 9, 5.5, 25, 8, 6, 36, 9, 5.5, 47, 8, 6, 58, 9, 5.5, 14, 19, 6, 25, 19, 5.5, 36,
		19, 6, 47, 19, 5.5, 58, 19, 6, 14, 29, 5.5, 25, 30, 6, 36, 29, 5.5, 47, 30, 6, 58, 29, 5.5, 14, 39, 6, 25, 40,
		5.5, 36, 39, 6, 47, 40, 5.5, 58, 39, 6}},
	"bouquets": {"M36 44 26 20M36 44 36 14M36 44 46 20M36 44 31 26M36 44 41 26M32 45h8", []float64{26, 16, 6, 46, 16, 6,
		31, 24, 5, 42, 24, 5, 36, 9, 6.5}},
	"tables": {"M8 34h56M14 34v12M58 34v12", []float64{29, 29, 5, 38, 29, 5.5, 46, 30, 4, 33, 21, 5, 42, 22, 4.5, 37, 13,
		5}},
	"numbers": {"", []float64{22, 5, 3.6, 22, 12, 3.6, 22, 19, 3.6, 22, 26, 3.6, 22, 33, 3.6, 22, 41, 3.6, 16, 9, 3.6, 45,
		5, 3.6, 38, 9, 3.6, 52, 9, 3.6, 38, 17, 3.6, 52, 17, 3.6, 45, 22, 3.6, 37, 28, 3.6, 53, 28, 3.6, 37, 36, 3.6, 53,
		36, 3.6, 45, 41, 3.6}},
	"free": {"", []float64{25, 27, 12, 44, 31, 8, 42, 15, 6, 55, 24, 4, 14, 38, 4, 32, 43, 3}},
}

// Picture draws what a kind of piece looks like, its balloons in the colours in turn, or empty for none. Words beside
// it say the same.
func Picture(key string, colours []job.Colour) g.Node {
	p := pictures[key]
	balloons := make(g.Group, 0, len(p.balloons)/3)
	for i := 0; i+2 < len(p.balloons); i += 3 {
		x, y, r := p.balloons[i], p.balloons[i+1], p.balloons[i+2]
		if len(colours) > 0 {
			balloons = append(balloons, circle(x, y, r, fill(colours[i/3%len(colours)].Value)))
			continue
		}
		balloons = append(balloons, g.El("circle", h.Class("todo"), g.Attr("cx", figure(x, 1)),
			g.Attr("cy", figure(y, 1)), g.Attr("r", figure(r, 1))))
	}
	return h.SVG(g.Attr("viewBox", "0 0 72 48"), decorative(),
		g.If(p.lines != "", g.El("path", h.Class("line"), g.Attr("d", p.lines))), balloons)
}
