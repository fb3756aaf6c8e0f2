package form

import (
	"math"
	"strconv"

	"garlandry/app/job"
	"garlandry/calc/measure"
)

// Range returns the field's allowed range in the reader's units: "0.1 m to 500 m". The limits are rounded inwards, so
// that either of them may be typed. Empty for kinds without a range.
func Range(f *job.Field, units measure.System) string {
	switch f.Kind {
	case job.Length, job.Lengths:
		return Limits(f, units, writeLength, readLength)
	case job.SmallLength:
		return Limits(f, units, writeSmallLength, readSmallLength)
	case job.Temperature:
		return Limits(f, units, measure.FormatTemperature, measure.ParseTemperatureC)
	case job.Mass:
		return Limits(f, units, measure.FormatMass, measure.ParseMassG)
	case job.Speed:
		return Limits(f, units, measure.FormatSpeed, measure.ParseSpeedMPS)
	case job.Volume:
		return Limits(f, units, measure.FormatVolume, measure.ParseVolumeL)
	case job.Whole, job.Number:
		return plain(math.Max(f.Min, lowest(f))) + " to " + plain(f.Max)
	}
	return ""
}

// lowest is the least number a person may type. In a field that may be -1, that means "by the rule" and is typed as
// nothing.
func lowest(f *job.Field) float64 {
	if f.Kind == job.Whole && f.Min == -1 {
		return 0
	}
	return f.Min
}

// Limits returns the range of a field as text that reads back to values within it.
func Limits(f *job.Field, units measure.System, write func(float64, measure.System) string,
	read func(string, measure.System) (float64, error)) string {
	return inward(f.Min, 1, units, write, read) + " to " + inward(f.Max, -1, units, write, read)
}

// inward writes a limit so that reading it back does not fall outside.
func inward(limit, direction float64, units measure.System, write func(float64, measure.System) string,
	read func(string, measure.System) (float64, error)) string {
	text := write(limit, units)
	step := math.Max(math.Abs(limit)*0.0002, 0.05)
	for i := 1; i <= 400; i++ {
		back, err := read(text, units)
		if err != nil || float64((back-limit)*direction) >= 0 {
			return text
		}
		text = write(limit+float64(direction*step*float64(i)), units)
	}
	return text
}

func plain(n float64) string { return strconv.FormatFloat(n, 'f', -1, 64) }

// writeLength writes a length for a form: heights above the sea may be negative.
func writeLength(mm float64, units measure.System) string { return measure.FormatLength(mm, units) }

func writeSmallLength(mm float64, units measure.System) string {
	return measure.FormatSmallLength(mm, units)
}

func readLength(text string, units measure.System) (float64, error) {
	return measure.ParseOffsetMM(text, units)
}

func readSmallLength(text string, units measure.System) (float64, error) {
	return measure.ParseSmallLengthMM(text, units)
}
