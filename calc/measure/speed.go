package measure

import "math"

var speedUnits = []unit{
	{"m/s|mps|m per s|metres per second|meters per second", 1, "", ""},
	{"km/h|kmh|kph|km per h|km per hour", 1 / 3.6, "", ""},
	{"mph|mi/h|miles per hour", MPSPerMPH, "", ""},
	{"kn|kt|kts|knot|knots", MPSPerKnot, "", ""},
	{"ft/s|fps", MMPerFoot / 1000, "", ""},
}

// BeaufortTopMPS returns the upper limit in m/s of a Beaufort force from 0 to 11, the cautious reading of a forecast.
// ok is false for other forces: force 12 has no upper limit. Limits: WMO code table 306, seen in a published sailing
// table.
func BeaufortTopMPS(force int) (mps float64, ok bool) {
	if force < 0 || force >= len(beaufortTops) {
		return 0, false
	}
	return beaufortTops[force], true
}

var beaufortTops = [...]float64{0.2, 1.5, 3.3, 5.4, 7.9, 10.7, 13.8, 17.1, 20.7, 24.4, 28.4, 32.6}

var speed = quantity{want: "a speed such as 8 m/s, 30 km/h, 18 mph or Bft 4", units: speedUnits,
	metric: "m/s", imperial: "mph", max: 1000}

// ParseSpeedMPS reads a speed in m/s, 0 to 1000: "8 m/s", "30 km/h", "20 mph", "12 kn", "Bft 4". A bare number means
// m/s (Metric) or mph (Imperial). A Beaufort force means its upper limit; "Bft 3-4" means that of force 4. Errors are
// *Error.
func ParseSpeedMPS(text string, bare System) (float64, error) {
	var parts scanned
	if why := parts.scan(text); why == "" && !parts.negative {
		forces := parts.terms
		last := &forces[len(forces)-1]
		single := len(forces) == 1 || len(forces) == 2 && oneOf(forces[0].unit, "|to") && forces[0].value < last.value
		if single && (isBeaufort(parts.prefix) && last.unit == "" || parts.prefix == "" && isBeaufort(last.unit)) {
			mps, ok := BeaufortTopMPS(int(min(last.value, 99)))
			if !ok || last.value != math.Trunc(last.value) {
				return speed.refuse(text, "Beaufort forces here are whole, 0 to 11")
			}
			return mps, nil
		}
	}
	return speed.read(text, bare)
}

func isBeaufort(word string) bool {
	return oneOf(word, "bft|beaufort|force|bf|bft force|beaufort force")
}

// FormatSpeed writes a speed to the nearest tenth of m/s or mph.
func FormatSpeed(mps float64, s System) string {
	if s == Imperial {
		return decimal(math.Round(mps/MPSPerMPH*10)/10, 1) + " mph"
	}
	return decimal(math.Round(mps*10)/10, 1) + " m/s"
}
