package form

import (
	"encoding/json"
	"errors"
	"math"
	"strings"

	"garlandry/app/job"
	"garlandry/calc/cluster"
	"garlandry/calc/measure"
)

// readNumber reads a quantity and checks the field's range. Lengths are kept to a thousandth of a millimetre,
// temperatures to a thousandth of a degree, masses to a thousandth of a gram.
func readNumber(f *job.Field, typed string, units measure.System) (json.RawMessage, *problem) {
	n, err := parse(f, typed, units)
	allowed := "; allowed is " + Range(f, units)
	if err != nil {
		return nil, at(f.Name, f.Label+": "+unread(f, err, units)+allowed)
	}
	n = math.Round(n*1000) / 1000
	if n < lowest(f) || n > f.Max {
		return nil, at(f.Name, f.Label+" must be from "+Range(f, units))
	}
	if f.Kind == job.Whole && n != math.Trunc(n) {
		return nil, at(f.Name, f.Label+" must be a whole number from "+Range(f, units))
	}
	return encode(n), nil
}

// unread returns the text of an error with only those examples that the field takes, in the units of the form.
func unread(f *job.Field, err error, units measure.System) string {
	fault, is := errors.AsType[*measure.Error](err)
	if !is {
		return err.Error()
	}
	return fault.Taking(func(example string) bool {
		if !measure.Speaks(example, units) {
			return false
		}
		n, err := parse(f, example, units)
		return err == nil && n >= lowest(f) && n <= f.Max && (f.Kind != job.Whole || n == math.Trunc(n))
	})
}

func parse(f *job.Field, typed string, units measure.System) (float64, error) {
	switch f.Kind {
	case job.Length, job.Lengths:
		if f.Min >= 0 {
			return measure.ParseLengthMM(typed, units)
		}
		return readLength(typed, units)
	case job.SmallLength:
		return readSmallLength(typed, units)
	case job.Temperature:
		return measure.ParseTemperatureC(typed, units)
	case job.Mass:
		return measure.ParseMassG(typed, units)
	case job.Speed:
		return measure.ParseSpeedMPS(typed, units)
	case job.Volume:
		return measure.ParseVolumeL(typed, units)
	case job.Whole:
		if n, err := measure.ParseCount(typed); err == nil {
			return float64(n), nil
		}
	}
	if strings.HasSuffix(typed, "%") {
		return measure.ParsePercent(typed)
	}
	return measure.ParseNumber(typed)
}

// readLengths reads lengths separated by plus signs or semicolons.
func readLengths(f *job.Field, typed string, units measure.System) (json.RawMessage, *problem) {
	list := []float64{}
	for _, part := range strings.FieldsFunc(typed, func(r rune) bool { return r == '+' || r == ';' }) {
		if part = strings.TrimSpace(part); part == "" {
			continue
		}
		mm, err := parse(f, part, units)
		if err != nil {
			return nil, at(f.Name, f.Label+": "+unread(f, err, units)+"; allowed is "+Range(f, units))
		}
		if mm < f.Min || mm > f.Max {
			return nil, at(f.Name, "Each of "+strings.ToLower(f.Label)+" must be from "+Range(f, units))
		}
		list = append(list, math.Round(mm*1000)/1000)
	}
	return encode(list), nil
}

// readTime reads what date inputs send, with or without seconds, with a T or a blank between.
func readTime(f *job.Field, typed string) (json.RawMessage, *problem) {
	if f.Kind == job.PointInTime {
		typed = dated(typed)
		if _, ok := job.ParseMoment(typed); !ok {
			return nil, at(f.Name, f.Label+" must be a date and time from the years 2000 to 2100, such as 2027-05-08 16:00")
		}
		return encode(typed), nil
	}
	if _, ok := job.ParseMoment(typed + "T00:00"); !ok {
		return nil, at(f.Name, f.Label+" must be a date from the years 2000 to 2100, such as 2027-05-08")
	}
	return encode(typed), nil
}

// dated returns a typed point in time in its stored form.
func dated(typed string) string {
	typed = strings.Replace(typed, " ", "T", 1)
	if len(typed) >= len("2006-01-02T15:04:05") {
		typed = typed[:len("2006-01-02T15:04")]
	}
	return typed
}

// readSpans reads pairs of times, from and to. It leaves out empty pairs.
func readSpans(f *job.Field, typed []string) (json.RawMessage, *problem) {
	spans := []job.Span{}
	for i := 0; i+1 < len(typed); i += 2 {
		from, to := dated(clean(typed[i], false)), dated(clean(typed[i+1], false))
		if from != "" || to != "" {
			spans = append(spans, job.Span{From: job.Moment(from), To: job.Moment(to)})
		}
	}
	return encode(spans), nil
}

// readRecipe returns the recipe in its one written form.
func readRecipe(f *job.Field, typed string) (json.RawMessage, *problem) {
	recipe, err := cluster.ParseRecipe(typed)
	if err != nil {
		return nil, at(f.Name, f.Label+": "+Plainly(err))
	}
	return encode(recipe.String()), nil
}

// Plainly returns the text of an error without its sentinel.
func Plainly(err error) string {
	text := err.Error()
	for _, sentinel := range []error{cluster.ErrRecipe, job.ErrInvalid} {
		if errors.Is(err, sentinel) {
			text = strings.TrimSuffix(text, ": "+sentinel.Error())
			text = strings.TrimPrefix(text, sentinel.Error()+": ")
		}
	}
	return text
}
