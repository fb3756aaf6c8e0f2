package picture

// Measures of a bouquet (from memory): ribbons that keep the balloons above the heads of people who sit, sticks for
// tables.
const (
	RibbonMM = 1000
	StickMM  = 300
)

// bouquetGap is the gap between bouquets, as a share of their width.
const bouquetGap = 0.25

// Bouquets returns n equal bouquets side by side, the left edge of the first at X = 0, and their ribbons or sticks.
// Each is a pile upside down: wide above and narrow towards its weight on the floor. Balloons with helium hang on
// ribbons from their necks to the weight, the lowest RibbonMM above it. Others sit on a stick of StickMM. No
// balloons overlap. Parts are indices of the sizes, which are of one bouquet. Clusters are bouquets.
func Bouquets(sizes []Size, n int, helium bool) ([]Balloon, []Line) {
	one := seen(pileOf(sizes))
	if len(one) == 0 || n < 1 {
		return nil, nil
	}
	e, up := ExtentOf(one), float64(StickMM)
	if helium {
		up = RibbonMM
	}
	wide := e.RightMM - e.LeftMM
	balloons := make([]Balloon, 0, n*len(one))
	var lines []Line
	for bunch := range n {
		left, side := float64(float64(bunch)*wide*(1+bouquetGap)), 1.0
		if bunch%2 == 1 {
			side = -1
		}
		middle := left + wide/2
		for _, b := range one {
			b.XMM = middle + float64((b.XMM-(e.LeftMM+e.RightMM)/2)*side)
			b.YMM, b.Cluster = up+e.TopMM-b.YMM, bunch
			if helium {
				lines = append(lines, straight(Ribbon, b.XMM, b.YMM-b.RadiusMM, middle, 0))
			}
			balloons = append(balloons, b)
		}
		if !helium {
			lines = append(lines, straight(Stick, middle, 0, middle, up+e.TopMM/2))
		}
	}
	return balloons, lines
}
