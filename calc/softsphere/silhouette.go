package softsphere

import "math"

// fineness is the number of raster points per mean diameter.
const fineness = 24

// Coverage returns the share, 0 to 1, of the straight band along the string, as wide as its visible width, that the
// balloons hide. It rasterises the silhouette and averages the views from the front and from above. It is 0 for a free
// cluster.
func (r Rest) Coverage() float64 {
	width := r.WidthMM()
	if width <= 0 {
		return 0
	}
	raster := newRaster(r.LengthMM, width, r.meanDiameter()/fineness)
	return (raster.cover(r.Balloons, [2]float64{1, 0}) + raster.cover(r.Balloons, [2]float64{0, 1})) / 2
}

// raster is the band as rows of points. It repeats along the string and is centred on it.
type raster struct {
	along, across         int
	length, width         float64
	stepAlong, stepAcross float64
	hidden                []bool
}

func newRaster(length, width, point float64) raster {
	along, across := max(1, int(math.Ceil(length/point))), max(1, int(math.Ceil(width/point)))
	return raster{
		along: along, across: across, length: length, width: width,
		stepAlong: length / float64(along), stepAcross: width / float64(across),
		hidden: make([]bool, along*across),
	}
}

// cover marks every balloon's disc from a view and returns the share of points marked.
func (g raster) cover(balloons []Balloon, view [2]float64) float64 {
	clear(g.hidden)
	for _, b := range balloons {
		g.disc(b.Z, float64(view[0]*b.X)+float64(view[1]*b.Y), b.Radius)
	}
	marked := 0
	for _, hidden := range g.hidden {
		if hidden {
			marked++
		}
	}
	return float64(marked) / float64(len(g.hidden))
}

// disc marks the points within a radius, row by row.
func (g raster) disc(z, x, radius float64) {
	first := max(0, int(math.Ceil((x-radius+g.width/2)/g.stepAcross-0.5)))
	for row := first; row < g.across; row++ {
		off := float64((float64(row)+0.5)*g.stepAcross) - g.width/2 - x
		square := float64(radius*radius) - float64(off*off)
		if square < 0 {
			if off > 0 {
				return
			}
			continue
		}
		half := math.Sqrt(square)
		from := int(math.Ceil((z-half)/g.stepAlong - 0.5))
		to := int(math.Floor((z+half)/g.stepAlong - 0.5))
		to = min(to, from+g.along-1)
		for column := from; column <= to; column++ {
			g.hidden[row*g.along+((column%g.along)+g.along)%g.along] = true
		}
	}
}
