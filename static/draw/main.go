// Command draw makes the app's icons, ours from the first line: an arch of balloons round an open door, in the colours
// of the demo job. It writes SVG and PNG files into ../icons, the same bytes on every run. Start at [main].
package main

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"log"
	"math"
	"os"
	"path/filepath"
	"strings"
)

// ball is one balloon on a square of side 1.
type ball struct {
	x, y, r float64
	colour  color.RGBA
}

var (
	paper = color.RGBA{0xfa, 0xf6, 0xf0, 0xff}
	ink   = color.RGBA{0x1c, 0x19, 0x16, 0xff}
	coral = color.RGBA{0xe5, 0x60, 0x4d, 0xff}
	blue  = color.RGBA{0x24, 0x41, 0x6b, 0xff}
	sand  = color.RGBA{0xdc, 0xbd, 0x8c, 0xff}
	blush = color.RGBA{0xf2, 0xb8, 0xa8, 0xff}
)

func main() {
	log.SetFlags(0)
	if err := run("icons"); err != nil {
		log.Fatal(err)
	}
}

func run(into string) error {
	files := map[string][]byte{
		"icon.svg": []byte(drawSVG(arch(0.94))),
	}
	for name, plan := range map[string]struct {
		side  int
		part  float64 // of the square that the drawing takes
		round bool
	}{
		"icon-192.png":     {192, 0.94, true},
		"icon-512.png":     {512, 0.94, true},
		"maskable-512.png": {512, 0.70, false},
		"touch-180.png":    {180, 0.84, false},
	} {
		var b bytes.Buffer
		if err := png.Encode(&b, drawPNG(plan.side, arch(plan.part), plan.round)); err != nil {
			return fmt.Errorf("encode %s: %w", name, err)
		}
		files[name] = b.Bytes()
	}
	for name, content := range files {
		if err := os.WriteFile(filepath.Join(into, name), content, 0o644); err != nil {
			return fmt.Errorf("write icon: %w", err)
		}
	}
	return nil
}

// arch lays eleven balloons along two legs and a half circle, taking the given part of the square.
func arch(part float64) []ball {
	colours := []color.RGBA{coral, sand, blue, blush, coral, sand, blue, coral, blush, sand, blue}
	const radius, leg = 0.30, 0.24
	total := math.Pi*radius + 2*leg
	balls := make([]ball, len(colours))
	for i := range balls {
		s := total * float64(i) / float64(len(balls)-1)
		x, y := 0.0, 0.0
		switch {
		case s < leg:
			x, y = -radius, leg-s
		case s > total-leg:
			x, y = radius, leg-(total-s)
		default:
			a := (s - leg) / radius
			x, y = -radius*math.Cos(a), -radius*math.Sin(a)
		}
		size := 0.095
		if i%2 == 1 {
			size = 0.078
		}
		balls[i] = ball{0.5 + x*part, 0.53 + y*part, size * part, colours[i]}
	}
	return balls
}

// corner is the radius of a rounded icon's corners.
const corner = 0.22

func door(balls []ball) (x, y, w, h float64) {
	left, right, low := balls[0], balls[len(balls)-1], balls[0].y+balls[0].r
	w = (right.x - left.x) * 0.42
	h = (low - 0.5) * 1.15
	return 0.5 - w/2, low - h, w, h
}

func drawSVG(balls []ball) string {
	var b strings.Builder
	b.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 512 512">`)
	fmt.Fprintf(&b, `<rect width="512" height="512" rx="%.1f" fill="%s"/>`, corner*512, hex(paper))
	x, y, w, h := door(balls)
	fmt.Fprintf(&b, `<rect x="%.1f" y="%.1f" width="%.1f" height="%.1f" rx="10" fill="%s"/>`, x*512, y*512, w*512, h*512,
		hex(ink))
	for _, c := range balls {
		fmt.Fprintf(&b, `<circle cx="%.1f" cy="%.1f" r="%.1f" fill="%s"/>`, c.x*512, c.y*512, c.r*512, hex(c.colour))
		fmt.Fprintf(&b, `<circle cx="%.1f" cy="%.1f" r="%.1f" fill="#fff" opacity=".5"/>`, (c.x-0.35*c.r)*512,
			(c.y-0.35*c.r)*512, c.r*0.2*512)
	}
	b.WriteString("</svg>\n")
	return b.String()
}

func hex(c color.RGBA) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

// samples is how many samples a pixel's side has, for smooth edges.
const samples = 4

func drawPNG(side int, balls []ball, round bool) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, side, side))
	for py := range side {
		for px := range side {
			var sum [4]int
			for i := range samples * samples {
				x := (float64(px) + (float64(i%samples)+0.5)/samples) / float64(side)
				y := (float64(py) + (float64(i/samples)+0.5)/samples) / float64(side)
				c := at(x, y, balls, round)
				a := int(c.A)
				sum[0], sum[1], sum[2], sum[3] = sum[0]+int(c.R)*a/255, sum[1]+int(c.G)*a/255, sum[2]+int(c.B)*a/255, sum[3]+a
			}
			const n = samples * samples
			img.SetRGBA(px, py, color.RGBA{uint8(sum[0] / n), uint8(sum[1] / n), uint8(sum[2] / n), uint8(sum[3] / n)})
		}
	}
	return img
}

// at returns the colour of one point of the square.
func at(x, y float64, balls []ball, round bool) color.RGBA {
	if round && !inRounded(x, y, 0, 0, 1, 1, corner) {
		return color.RGBA{}
	}
	for i := len(balls) - 1; i >= 0; i-- {
		b := balls[i]
		if !within(x-b.x, y-b.y, b.r) {
			continue
		}
		if within(x-b.x+0.35*b.r, y-b.y+0.35*b.r, b.r*0.2) {
			return mix(b.colour, color.RGBA{255, 255, 255, 255})
		}
		return b.colour
	}
	dx, dy, w, h := door(balls)
	if inRounded(x, y, dx, dy, w, h, 10.0/512) {
		return ink
	}
	return paper
}

// within reports whether the step leads no farther than r. Products are wrapped so that every machine draws the same.
func within(dx, dy, r float64) bool { return float64(dx*dx)+float64(dy*dy) <= float64(r*r) }

func mix(a, b color.RGBA) color.RGBA {
	return color.RGBA{uint8((int(a.R) + int(b.R)) / 2), uint8((int(a.G) + int(b.G)) / 2),
		uint8((int(a.B) + int(b.B)) / 2), 255}
}

func inRounded(x, y, left, top, w, h, r float64) bool {
	if x < left || y < top || x > left+w || y > top+h {
		return false
	}
	cx := min(max(x, left+r), left+w-r)
	cy := min(max(y, top+r), top+h-r)
	return within(x-cx, y-cy, r)
}
