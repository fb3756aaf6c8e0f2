package colour

// Sight is a way of seeing without one of the three kinds of cone.
type Sight int

// The two that are common. Blue-blindness is rare.
const (
	Protanopia   Sight = iota // without the cones for long waves: reds look dark
	Deuteranopia              // without the cones for middle waves: red and green look alike
)

// Seen returns what a person of that sight sees instead of the colour: Viénot, Brettel and Mollon, "Digital video
// colourmaps for checking the legibility of displays by dichromats", Color Research & Application 24, 1999. Their three
// matrices are multiplied here into two figures. Greys stay as they are. The paper shrinks all colours a little so that
// none leaves the screen's range; here the few that would are cut off, so that white stays white.
func (c RGB) Seen(sight Sight) RGB {
	red, blue := 0.112383, 0.004006
	if sight == Deuteranopia {
		red, blue = 0.292750, -0.022337
	}
	r, g, b := linear(c.R), linear(c.G), linear(c.B)
	yellow := channel(float64(red*r) + float64((1-red)*g))
	return RGB{yellow, yellow, channel(b + float64(blue*(r-g)))}
}
